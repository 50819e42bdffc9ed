"""Words by which tables call their columns, as data: by what a column means, then by language; the one place for them.

"standard" holds terms of Darwin Core (list of terms, 2026-05-26), ColDP 1.2 and of the tables that GBIF hands out; they
win over all others, and of each language the word that stands earlier wins. The rest is common practice, no source.
Words stand as keepers write them; case, marks, blanks and signs do not count.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

_WORDS: dict[str, str] = {
    "specimen id": """
        standard: catalogNumber; organismID; occurrenceID; organismName; recordNumber; materialEntityID
        en: id; no; nr; number; inventory; inventory no; inventory number; inv; inv no; code; label; label no;
            box id; specimen; specimen id; animal id; animal no; ref; tag no; collection no; accession; accession no
        de: Nr; Nummer; Inventar; Inventarnr; Inventarnummer; lfd Nr; laufende Nummer; Kennung; Tier-Nr; Tiernummer
        es: número; núm; código; n.º; identificador
        fr: numéro; n°; code; identifiant; réf; référence; no
        pl: numer; nr; lp; l.p.; kod; identyfikator; nr inwentarzowy
    """,
    "tag": """
        standard: verbatimLabel; verbatimIdentification; verbatimScientificName
        en: tag; sold as; bought as; sellers text; seller tag; species as sold; name as sold; as sold; label text;
            name on label; name on tag; description; purchased as
        de: gekauft als; verkauft als; Etikett; Beschreibung; Bezeichnung; Art laut Verkäufer; Name laut Verkäufer
        es: vendido como; comprado como; etiqueta; descripción
        fr: vendu comme; acheté comme; étiquette; nom de vente; désignation
        pl: kupiony jako; sprzedany jako; etykieta; opis; nazwa sprzedawcy
    """,
    "name": """
        standard: scientificName; canonicalName; acceptedScientificName
        en: scientific name; latin name; species name; full name; binomial; taxon; taxon name; scientific; latin
        de: wissenschaftlicher Name; wiss. Name; lateinischer Name; Artname; lat. Name
        es: nombre científico; nombre latino; taxón
        fr: nom scientifique; nom latin; LB_NOM; nom complet; NOM_COMPLET
        pl: nazwa naukowa; nazwa łacińska; nazwa gatunkowa; takson
    """,
    # The epithet beside a column of genera, the name where there is none.
    "species": """
        standard: species
        en: species; sp
        de: Art; Spezies
        es: especie
        fr: espèce
        pl: gatunek
    """,
    # What holds a name where nothing better is there.
    "any name": """
        en: name; animal; spider; tarantula; scorpion; mantis; isopod; beetle; what
        de: Name; Tier; Spinne; Vogelspinne; Skorpion; Mantide; Assel; Käfer
        es: nombre; animal; araña; tarántula; escorpión
        fr: nom; animal; araignée; mygale; scorpion
        pl: nazwa; zwierzę; pająk; ptasznik; skorpion; modliszka
    """,
    "genus": """
        standard: genericName; genus
        en: genus; genus name
        de: Gattung
        es: género
        fr: genre
        pl: rodzaj
    """,
    "subgenus": """
        standard: infragenericEpithet; subgenus
        de: Untergattung
        es: subgénero
        fr: sous-genre
        pl: podrodzaj
    """,
    "epithet": """
        standard: specificEpithet
        en: epithet; species epithet
        de: Artepitheton; Epitheton
        es: epíteto; epíteto específico
        fr: épithète; épithète spécifique
        pl: epitet; epitet gatunkowy
    """,
    "infraspecific": """
        standard: infraspecificEpithet
        en: subspecies; ssp; subsp
        de: Unterart
        es: subespecie
        fr: sous-espèce
        pl: podgatunek
    """,
    "authorship": """
        standard: scientificNameAuthorship; authorship
        en: authority; author and year; author year; author, year; author/year
        de: Autor und Jahr; Autor, Jahr; Erstbeschreiber; Erstbeschreibung
        es: autoría; autor y año; autor, año
        fr: auteur et année; auteur, année; descripteur; LB_AUTEUR
        pl: autor i rok; autor, rok
    """,
    "author": """
        en: author; authors; describer
        de: Autor; Autoren
        es: autor; autores
        fr: auteur; auteurs
        pl: autor; autorzy
    """,
    "year": """
        standard: namePublishedInYear
        en: year; year of description
        de: Jahr; Beschreibungsjahr
        es: año
        fr: année
        pl: rok
    """,
    "brackets": """
        en: parentheses; brackets
        de: Klammern
        fr: parenthèses
    """,
    "qualifier": """
        standard: identificationQualifier
        en: qualifier; uncertainty; cf; cf/aff
        de: Zusatz; Unsicherheit
        es: calificador
        fr: qualificatif
        pl: kwalifikator
    """,
    "since": """
        standard: dateIdentified
        en: since; name since; named on; identified; identified on; labelled on
        de: seit; bestimmt am; benannt am
        es: desde; identificado; fecha de identificación
        fr: depuis; identifié le; déterminé le
        pl: od; oznaczono; data oznaczenia
    """,
    "decided by": """
        standard: identifiedBy
        en: identified by; det; det by; determined by
        de: bestimmt von; det.
        es: identificado por
        fr: identifié par; déterminé par
        pl: oznaczył
    """,
    "acquired": """
        en: acquired; date acquired; acquisition date; bought; bought on; date bought; date; purchase date;
            date of purchase; purchased; got; arrived; arrival; received; date received; in collection since
        de: erworben; erworben am; gekauft; gekauft am; Kaufdatum; Datum; erhalten; erhalten am; Zugang;
            Zugangsdatum; Anschaffung; Anschaffungsdatum; eingezogen; eingezogen am; im Bestand seit; Erwerb;
            Erwerbsdatum
        es: adquirido; adquirida; fecha; fecha de compra; comprado; comprado el; fecha de adquisición; llegada
        fr: acquis; acquis le; achat; acheté le; date; date d'achat; date d'acquisition; arrivée; arrivé le; reçu le
        pl: nabyty; data; data zakupu; kupiony; kupiona; kupiono; zakup; data nabycia; nabyto; zakupiony
    """,
    "observed": """
        standard: eventDate; verbatimEventDate
    """,
    "died": """
        en: died; died on; death; date of death; dead
        de: gestorben; gestorben am; verstorben; verstorben am; Todesdatum; Tod; tot
        es: murió; muerte; fecha de muerte; muerto
        fr: mort; mort le; décès; décédé le; date de décès
        pl: padł; padła; zgon; data zgonu; śmierć
    """,
    "sold": """
        en: sold; sold on; date sold; sale date
        de: verkauft; verkauft am; Verkauf; Verkaufsdatum; abgegeben; abgegeben am; Abgabe
        es: vendido; vendido el; fecha de venta
        fr: vendu; vendu le; date de vente
        pl: sprzedany; sprzedano; data sprzedaży
    """,
    "sex": """
        standard: sex
        en: sex; gender; m/f; sexed
        de: Geschlecht; Geschl.; Gesch.; M/W; Geschlechter; Geschlechterverhältnis; m.w.u.
        es: sexo; género
        fr: sexe; genre
        pl: płeć
    """,
    "males": """
        en: males; male; m; ♂
        de: Männchen; männlich; Böcke
        es: machos
        fr: mâles
        pl: samce; samców
    """,
    "females": """
        en: females; female; f; ♀
        de: Weibchen; weiblich; w
        es: hembras
        fr: femelles
        pl: samice; samic
    """,
    "unsexed": """
        en: unsexed; unknown sex; u
        de: unbestimmt; unbestimmte; Jungtiere
        es: sin sexar
        fr: non sexés; indéterminés
        pl: nieoznaczone; n.n.
    """,
    "count": """
        standard: individualCount; organismQuantity
        en: count; quantity; qty; number of animals; how many; animals; specimens; pcs; pieces; amount
        de: Anzahl; Stück; Stk; Menge; Stückzahl; Bestand
        es: cantidad; ejemplares; cuántos
        fr: quantité; nombre; effectif; nb
        pl: ilość; sztuk; szt; liczba
    """,
    "locality": """
        standard: locality; verbatimLocality
        en: locality; locale; origin; provenance; location found; site; region
        de: Fundort; Herkunft; Lokalität; Verbreitung
        es: localidad; procedencia; origen
        fr: localité; provenance; origine
        pl: pochodzenie; lokalizacja geograficzna; stanowisko
    """,
    "municipality": """
        standard: municipality; county
    """,
    "province": """
        standard: stateProvince
    """,
    "country": """
        standard: country; countryCode
        en: country; country of origin
        de: Land; Herkunftsland; Ursprungsland
        es: país; país de origen
        fr: pays; pays d'origine
        pl: kraj; kraj pochodzenia
    """,
    "from": """
        en: from; seller; breeder; source; dealer; shop; vendor; supplier; bought from; purchased from; handler
        de: von; Züchter; Verkäufer; Händler; Bezugsquelle; gekauft von; gekauft bei; Quelle
        es: vendedor; criador; proveedor; tienda; comprado a
        fr: vendeur; éleveur; fournisseur; acheté chez; magasin
        pl: sprzedawca; hodowca; od kogo; źródło; sklep; kupiony od
    """,
    "place": """
        en: place; where; shelf; room; enclosure; rack; tank; location; box; terrarium; cage
        de: Regal; wo; Standort; Terrarium; Becken; Platz; Box; Fach
        es: estante; ubicación; terrario
        fr: emplacement; étagère; terrarium
        pl: miejsce; regał; półka; terrarium; pojemnik
    """,
    "note": """
        standard: occurrenceRemarks; organismRemarks; fieldNotes
        en: note; notes; remark; remarks; comment; comments; misc
        de: Notiz; Notizen; Bemerkung; Bemerkungen; Anmerkung; Anmerkungen; Kommentar; Sonstiges
        es: nota; notas; observaciones; comentarios
        fr: note; notes; remarque; remarques; commentaire; commentaires; observations
        pl: uwagi; notatki; komentarz
    """,
    "common": """
        standard: vernacularName
        en: common name; common names; common; trivial name; english name; trade name; nickname
        de: deutscher Name; Trivialname; Handelsname; Populärname
        es: nombre común; nombre vulgar
        fr: nom commun; nom vernaculaire; nom français; NOM_VERN
        pl: nazwa polska; nazwa zwyczajowa; nazwa handlowa
    """,
    "stage": """
        standard: lifeStage
        en: stage; life stage; age class; instar; moult stage
        de: Stadium; Lebensstadium; Entwicklungsstadium; FH; Fresshaut; Häutung
        es: estadio; fase; muda
        fr: stade; stade de vie; mue
        pl: stadium; wylinka; L
    """,
    "size": """
        en: size; body length; bl; leg span; legspan; dls; length
        de: Größe; Groesse; Körperlänge; KL; Spannweite
        es: tamaño; talla
        fr: taille; longueur
        pl: wielkość; rozmiar; DC
    """,
    "price": """
        en: price; cost; paid; price paid; value
        de: Preis; Kaufpreis; Kosten; bezahlt; EK; Wert
        es: precio; coste
        fr: prix; prix d'achat; coût
        pl: cena; koszt
    """,
    "taxon id": """
        standard: taxonID; id; usageID; nameID; taxonKey
        en: id; species id; key; taxon key; species code
        de: Nr; Nummer; Kennung; Taxon-Nr
        es: código; identificador
        fr: code; identifiant; numéro; CD_NOM
        pl: numer; kod; identyfikator
    """,
    "status": """
        standard: taxonomicStatus; status
        en: taxonomic status; taxon status; name status; validity
        de: Status; taxonomischer Status; Gültigkeit
        es: estado; estatus; estado taxonómico; estatus taxonómico
        fr: statut; statut taxonomique; validité
        pl: status taksonomiczny; status nazwy
    """,
    "accepted id": """
        standard: acceptedNameUsageID; acceptedTaxonID; acceptedTaxonKey; acceptedNameID
        en: accepted id; valid id; accepted key; accepted code; valid name id; accepted taxon id; id of accepted name
        de: ID akzeptiert; akzeptierte ID; gültige ID; Nr gültig
        es: id aceptado; código aceptado
        fr: id accepté; CD_REF; id valide; code accepté
        pl: id zaakceptowany; id nazwy zaakceptowanej
    """,
    "accepted name": """
        standard: acceptedNameUsage; acceptedScientificName
        en: accepted name; valid name; current name; accepted scientific name; accepted species; valid species;
            accepted taxon; synonym of; senior synonym; correct name; name accepted
        de: akzeptierter Name; gültiger Name; aktueller Name; Synonym von; Synonym zu; gültige Art
        es: nombre aceptado; nombre válido; nombre actual; sinónimo de
        fr: nom accepté; nom valide; nom actuel; nom retenu; synonyme de; nom de référence
        pl: nazwa zaakceptowana; nazwa aktualna; nazwa ważna; synonim nazwy
    """,
    "parent id": """
        standard: parentNameUsageID; parentID; parentKey; higherTaxonID
        en: parent id; parent
        fr: CD_SUP
    """,
    "rank": """
        standard: taxonRank; verbatimTaxonRank; rank
        de: Rang
        es: rango; categoría taxonómica
        fr: rang; rang taxonomique
        pl: ranga; kategoria
    """,
    "language": """
        standard: language; languageCode
        en: language; lang
        de: Sprache
        es: idioma; lengua
        fr: langue
        pl: język
    """,
    "range": """
        standard: distribution; locality; countryCode
        en: range; distribution; countries; country; native range
        de: Verbreitung; Land; Länder
        es: distribución; países; país
        fr: répartition; distribution; pays
        pl: zasięg; rozmieszczenie; kraj; kraje
    """,
    "original genus": """
        standard: originalGenus
        en: original genus; basionym genus
        de: Originalgattung
    """,
    "remarks": """
        standard: taxonRemarks; remarks
        en: notes; note; comments
        de: Bemerkungen; Bemerkung; Anmerkungen
        es: observaciones; notas
        fr: remarques; commentaires
        pl: uwagi
    """,
    "family": """
        standard: family
        de: Familie
        es: familia
        fr: famille
        pl: rodzina
    """,
    "order": """
        standard: order
        de: Ordnung
        es: orden
        fr: ordre
        pl: rząd
    """,
    "class": """
        standard: class
        de: Klasse
        es: clase
        fr: classe
        pl: gromada
    """,
    "kingdom": """
        standard: kingdom
        de: Reich
        es: reino
        fr: règne
        pl: królestwo
    """,
    # No column: first words of a row that adds up the rows above it.
    "total": """
        en: total; totals; sum; sum total; grand total; subtotal
        de: Summe; gesamt; insgesamt; Gesamtsumme; Zwischensumme
        es: total; suma; totales
        fr: total; somme; totaux
        pl: suma; razem; ogółem; łącznie
    """,
}


def _words_in(block: str) -> tuple[str, ...]:
    """Words of all languages in their order; a line that begins with no language goes on with the one above."""
    plain = re.sub(r"^\s*[a-z]{2,8}:", ";", block, flags=re.MULTILINE)
    return tuple(word for part in plain.split(";") if (word := " ".join(part.split())))


HEADER_WORDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {meaning: _words_in(block) for meaning, block in _WORDS.items()}
)
