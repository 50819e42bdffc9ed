"""The document that describes a published collection: EML 2.2.0 (github.com/NCEAS/eml), as GBIF's profile uses it."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from namekeeper.records.specimen import Collection
from namekeeper.tables.published import LICENCES, Publication

_NO_LICENCE = "No licence is given yet: ask the rights holder before you use these data."


def as_eml(collection: Collection, publication: Publication) -> str:
    """Valid against the schema of EML 2.2.0; the order of elements is that of the schema."""
    title = _said(collection.settings.title) or "A collection of living invertebrates"
    party = f"<organizationName>{_said(publication.rights_holder) or title}</organizationName>"
    day = publication.today.isoformat()
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<eml:eml xmlns:eml="https://eml.ecoinformatics.org/eml-2.2.0" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
    xsi:schemaLocation="https://eml.ecoinformatics.org/eml-2.2.0 https://rs.gbif.org/schema/eml-2.2.0/eml.xsd"
    packageId="namekeeper-{day}" system="namekeeper" scope="system">
  <dataset>
    <title>{title}</title>
    <creator>{party}</creator>
    <pubDate>{day}</pubDate>
    <language>en</language>
    <abstract><para>Living animals in human care, with every name each has carried on its label and since when.
      Localities are where the stock came from, not where it is kept.</para></abstract>
    <intellectualRights><para>{_rights(publication)}</para></intellectualRights>{_licensed(publication)}
    <contact>{party}</contact>
  </dataset>
</eml:eml>
"""


def _rights(publication: Publication) -> str:
    holder = _said(publication.rights_holder)
    licence = LICENCES.get(publication.licence.casefold())
    if licence is not None:
        held = f" Rights holder: {holder}." if holder else ""
        link = f"<ulink url={quoteattr(licence.url)}><citetitle>{licence.title}</citetitle></ulink>"
        return f"This work is licensed under {link}.{held}"
    said = f"Licence: {_said(publication.licence)}." if publication.licence.strip() else _NO_LICENCE
    return f"{said} Rights holder: {holder}." if holder else said


def _licensed(publication: Publication) -> str:
    licence = LICENCES.get(publication.licence.casefold())
    if licence is None:
        return ""
    return f"""
    <licensed><licenseName>{licence.title}</licenseName><url>{licence.url}</url>
      <identifier>{licence.identifier}</identifier></licensed>"""


def _said(text: str) -> str:
    """As XML 1.0 may hold it."""
    return escape("".join(sign for sign in text if sign.isprintable()).strip())
