"""Entities of ColDP 1.2 that a list of names needs, with the order of their fields (docs/datapackage.json)."""

from __future__ import annotations

from types import MappingProxyType

_ORDERED = {
    "nameusage": """
        ID alternativeID nameAlternativeID sourceID parentID basionymID status scientificName authorship rank notho
        originalSpelling uninomial genericName infragenericEpithet specificEpithet infraspecificEpithet
        cultivarEpithet combinationAuthorship combinationAuthorshipID combinationExAuthorship
        combinationExAuthorshipID combinationAuthorshipYear basionymAuthorship basionymAuthorshipID
        basionymExAuthorship basionymExAuthorshipID basionymAuthorshipYear namePhrase nameReferenceID
        namePublishedInYear namePublishedInPage namePublishedInPageLink gender genderAgreement etymology code
        nameStatus accordingToID accordingToPage accordingToPageLink referenceID scrutinizer scrutinizerID
        scrutinizerDate extinct temporalRangeStart temporalRangeEnd environment species section subgenus genus
        subtribe tribe subfamily family superfamily suborder order subclass class subphylum phylum kingdom ordinal
        branchLength link nameRemarks remarks modified modifiedBy
    """,
    "name": """
        ID alternativeID sourceID basionymID scientificName authorship rank uninomial genus infragenericEpithet
        specificEpithet infraspecificEpithet cultivarEpithet notho originalSpelling combinationAuthorship
        combinationAuthorshipID combinationExAuthorship combinationExAuthorshipID combinationAuthorshipYear
        basionymAuthorship basionymAuthorshipID basionymExAuthorship basionymExAuthorshipID basionymAuthorshipYear
        code status referenceID publishedInYear publishedInPage publishedInPageLink gender genderAgreement etymology
        link remarks modified modifiedBy
    """,
    "taxon": """
        ID alternativeID sourceID parentID nameID namePhrase accordingToID accordingToPage accordingToPageLink
        provisional scrutinizer scrutinizerID scrutinizerDate extinct temporalRangeStart temporalRangeEnd
        environment referenceID species section subgenus genus subtribe tribe subfamily family superfamily suborder
        order subclass class subphylum phylum kingdom ordinal branchLength link remarks modified modifiedBy
    """,
    "synonym": """
        ID sourceID taxonID nameID namePhrase accordingToID accordingToPage accordingToPageLink status referenceID
        link remarks modified modifiedBy
    """,
    "vernacularname": """
        taxonID sourceID name transliteration language preferred country area sex referenceID remarks modified
        modifiedBy
    """,
    "distribution": """
        taxonID sourceID areaID area gazetteer establishmentMeans degreeOfEstablishment pathway threatStatus year
        season lifeStage referenceID remarks modified modifiedBy
    """,
    "namerelation": """
        nameID relatedNameID sourceID type referenceID page remarks modified modifiedBy
    """,
    "reference": """
        ID alternativeID sourceID citation type author authorID editor editorID title titleShort containerAuthor
        containerAuthorID containerTitle containerTitleShort issued accessed collectionTitle collectionEditor
        collectionEditorID volume issue edition page publisher publisherPlace version isbn issn doi link remarks
        modified modifiedBy
    """,
}
#: Fields by entity; a file without a header is read by position in this order.
FIELDS = MappingProxyType({entity: tuple(fields.split()) for entity, fields in _ORDERED.items()})
