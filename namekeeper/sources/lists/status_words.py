"""Words by which lists call the standing and the rank of a name, as data, and what each means here.

Darwin Core has examples only; the words are those of the GBIF vocabulary of taxonomic status (2022-02-02), of ColDP
1.2, of the World Register of Marine Species, and what published lists write (collected in github.com/gbif/parsers,
taxStatus.tsv), with the same in German, French, Spanish, Portuguese and Polish. Without case and marks.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from namekeeper.evidence.statements import NameStatus

_BY_STATUS: dict[NameStatus, str] = {
    NameStatus.ACCEPTED: """
        accepted; valid; correct; current; in force; accepted name; valid name; accepted species name; preferred name;
        provisionally accepted; provisionally accepted name; a; nomen validum; nom valide; valide; accepte; nom accepte;
        retenu; valido; valida; aceptado; aceptada; aceito; nome aceito; nombre aceptado; nombre valido;
        akzeptiert; gultig; gultiger name; akzeptierter name; valide art; zaakceptowany; zaakceptowana; wazny; wazna;
        obowiazujacy; obowiazujaca
    """,
    NameStatus.SYNONYM: """
        synonym; invalid; not accepted; unaccepted; not valid; junior synonym; subjective synonym; heterotypic synonym;
        junior subjective synonym; junior heterotypic synonym; synonym subjective; genus synonym; superseded;
        superseded name; unnecessary replacement name; other combination; alternative representation;
        alternate representation; lexical variant; spelling variant; misspelling; incorrect spelling;
        incorrect subsequent spelling; incorrect original spelling; misspelling incorrect subsequent spelling;
        misspelling incorrect original spelling; s; syn; synonyme; non valide; invalide; synonyme junior;
        synonyme subjectif; synonyme heterotypique; sinonimo; sinonimia; invalido; no aceptado; no valido;
        sinonimo junior; sinonimo heterotipico; ungultig; ungultiger name; nicht akzeptiert; synonym junior;
        jungeres synonym; subjektives synonym; heterotypisches synonym; synonim; niewazny; nieakceptowany
    """,
    NameStatus.OBJECTIVE_SYNONYM: """
        homotypic synonym; objective synonym; junior objective synonym; superseded combination; superseded rank;
        original combination; synonym objective; synonyme homotypique; synonyme objectif; sinonimo homotipico;
        sinonimo objetivo; homotypisches synonym; objektives synonym; combinaison originale; combinacion original
    """,
    NameStatus.REPLACED: "replaced; replaced name; homonym; junior homonym; homonyme; homonimo",
    NameStatus.AMBIGUOUS: """
        ambiguous; ambiguous synonym; pro parte synonym; proparte synonym; pro parte; partial synonym; pp; p p;
        synonyme pro parte; sinonimo pro parte; sinonimo ambiguo; synonyme ambigu
    """,
    NameStatus.MISAPPLIED: """
        misapplied; misapplied name; misidentification; nom mal applique; mal aplicado; fehlbestimmung; misapplication
    """,
    NameStatus.DOUBTFUL: """
        doubtful; nomen dubium; nomina dubia; species inquirenda; taxon inquirendum; uncertain; unassessed; unresolved;
        incertae sedis; douteux; dudoso; zweifelhaft; watpliwy; temporary name; to determine
    """,
    NameStatus.UNAVAILABLE: """
        unavailable; unavailable name; nomen nudum; bare name; manuscript; manuscript name; interim unpublished;
        unpublished name; nomen oblitum; nicht verfugbar; nom non disponible; no disponible
    """,
}
#: Nothing said: the row speaks by what it points to.
_SILENT = ("", "null", "na", "n/a", "\\n")
STATUS_WORDS: Mapping[str, NameStatus] = MappingProxyType(
    {
        **dict.fromkeys(_SILENT, NameStatus.ACCEPTED),
        **{" ".join(word.split()): status for status, words in _BY_STATUS.items() for word in words.split(";")},
    }
)
#: Status by the Code, where it means that a name is not in force.
CODE_STATUS_WORDS: Mapping[str, NameStatus] = MappingProxyType(
    {
        **dict.fromkeys(("dubium", "doubtful", "nomen dubium", "species inquirenda"), NameStatus.DOUBTFUL),
        **dict.fromkeys(("nudum", "nomen nudum", "not established", "manuscript", "chresonym"), NameStatus.UNAVAILABLE),
    }
)

#: Ranks in other words than ours: in German, French, Spanish and Polish, and the codes of the French register (TAXREF).
RANK_WORDS: Mapping[str, str] = MappingProxyType(
    {
        word: rank
        for rank, words in {
            "species": "art; spezies; espece; espèce; especie; gatunek; es; sp; sp.",
            "subspecies": "unterart; sous-espece; sous-espèce; subespecie; podgatunek; sses; ssp; ssp.; subsp.",
            "genus": "gattung; genre; genero; género; rodzaj; gn",
            "subgenus": "untergattung; sous-genre; subgenero; subgénero; podrodzaj; ssgn",
            "family": "familie; famille; familia; rodzina; fm",
            "subfamily": "unterfamilie; sous-famille; subfamilia; podrodzina; ssfm",
            "order": "ordnung; ordre; orden; rząd; or",
            "class": "klasse; classe; clase; gromada; cl",
            "kingdom": "reich; regne; règne; reino; królestwo; kd",
        }.items()
        for word in words.split("; ")
    }
)
