# ruff: noqa: E501 - tables of words: one meaning, one line
"""Which native range a place on a tag belongs to: forms and adjectives of countries, parts of them, and what holds them.

Countries by their ISO 3166 short names, regions by the UN geoscheme (M49) in the words of ranges; where a province or an
island lies is common knowledge of atlases, from memory. Data only; folded like all tag words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from types import MappingProxyType

from namekeeper.words.spelling import plain_key

#: Country of a range -> other names, adjectives, parts of it
_COUNTRIES = MappingProxyType(
    {
        "Mexico": "México|Mexiko|Mexique|Messico|Meksyk|Mex|Mexican|Mexikanische|mexicana|mexicano|messicana|Campeche|Chiapas|Chihuahua|Colima|Durango|Guerrero|Hidalgo|Jalisco|Mexico City|Michoacán|Morelos|Nayarit|Oaxaca|Puebla|Quintana Roo|Sonora|Tabasco|Tamaulipas|Veracruz|Vera Cruz|Yucatán|Baja California",
        "Brazil": "Brasil|Brasilien|Brazylia|Brésil|Brazilië|Braz|Brazilian|Brasilianische|brasileña|Amazonas|Bahia|Belem|Boa Vista|Ceará|Goiás|Manaus|Maranhão|Mato Grosso|Minas Gerais|Pará|Pernambuco|Rio Grande do Sul|Roraima|Amazon|Amazonia",
        "United States": "USA|American|Arizona|California|Florida|New Mexico|Texas",
        "Australia": "Australien|Australian|Australische|Aus|Queensland", "India": "Indien|Inde|Indie|Indian|Indische|Assam|Gujarat|Karnataka|Kerala|Mysore|Orissa|Tamil Nadu|Andaman",
        "Peru": "Perú|Pérou|Peruvian|Cuzco|Iquitos|Loreto|Pucallpa|Tingo Maria|Amazon|Amazonia|Amazonas", "Colombia": "Kolumbien|Kolumbia|Kolumbie|Colombie|Colombian|Col|Leticia|Norte de Santander|Santander|Amazonas|Amazon",
        "Malaysia": "Malaisie|Malezja|Malaysian|Malayan|Sabah|Sarawak|Langkawi|Borneo", "Indonesia": "Indonesien|Indonesian|Bali|Banda|Borneo|Flores|Halmahera|Java|Javan|Kalimantan|Lombok|Seram|Sulawesi|Sumatra|Sumatran|West Java",
        "Ecuador": "Ekuador|Ecuadorian|Tena|Galapagos|Amazon|Amazonia", "South Africa": "Südafrika|South African|Cape|Cape Town|Kruger|Namaqualand|Transvaal|Uitenhage|Western Cape|Zululand|Kalahari",
        "Thailand": "Thaïlande|Tajlandia|Thajsko|Thai|Koh Samui", "Venezuela": "Venez|Venezuelan|Amazonas|Puerto Ayacucho", "Argentina": "Argentinien|Argentinian|Argentine|Arg|Misiones|Patagonia|Tucumán|Chaco|Pampas",
        "Paraguay": "Paraguayan|Concepción|Chaco", "Bolivia": "Bolivien|Bolivian|Chaco|Santa Cruz", "Madagascar": "Madagaskar|Madagascan|Malagasy", "Philippines": "Philippinen|Filipinas|Philippine|Luzon|Mindanao|Panay",
        "Costa Rica": "Costa Rican|Costa|Rica|Rican|Guanacaste", "China": "Chinese|Chinesische", "Sri Lanka": "Ceylon|Sri Lankan|Sri|Lanka|Lankan", "Spain": "Spanien|España|Spanish|Andalusia|Iberia", "Panama": "Panamá|Panamanian|Chiriquí|Fortuna",
        "Chile": "Chili|Cile|Chilli|Chil|Chilean|Chilenische|chilena|Atacama", "Myanmar": "Burma|Burmese", "Japan": "Japanese|Japanische", "Tanzania": "Tansania|Tanzanie|Tanzanian|Usambara|Arusha|Kigoma|Zanzibar",
        "Vietnam": "Vietnamese", "French Guiana": "Guyane|Guyana", "Cuba": "Kuba|Cuban", "Belize": "", "Zimbabwe": "Zimbabwean", "Uruguay": "Uruguayan|Pampas", "Cameroon": "Kamerun|Cameroun|Cameroonian",
        "Mozambique": "Mosambik", "Trinidad and Tobago": "Trinidad|Tobago", "Guatemala": "Guatemalan|Guat|Petén", "Guyana": "", "Suriname": "Surinam", "New Guinea": "Papua|Papua New Guinea", "New Zealand": "",
        "Türkiye": "Turkey|Türkei|Turkish|Antalya", "Morocco": "Marokko|Maroc|Moroccan", "Honduras": "Honduran|Hond|Roatán", "Italy": "Italien|Italia|Italian|Sardinia|Sicily", "Singapore": "Singapur", "Kenya": "Kenia|Kenyan|Mombasa",
        "Syria": "Syrian", "Israel": "", "Dominican Republic": "DomRep|Hispaniola", "Ethiopia": "Äthiopien|Ethiopian", "Cambodia": "Kambodscha|Cambodian", "Greece": "Griechenland|Greek|Crete|Kreta", "Nicaragua": "Nicaraguan|Nic",
        "Malawi": "", "Namibia": "Namibian|Kalahari|Namaqualand", "Laos": "", "Gabon": "Gabun", "Taiwan": "Taiwanese", "Oman": "", "Somalia": "Somaliland", "Puerto Rico": "Puerto Rican", "Botswana": "Kalahari", "Egypt": "Ägypten|Egyptian",
        "Nepal": "", "Iran": "", "Iraq": "", "Yemen": "Jemen|Socotra|Sokotra", "Zambia": "Sambia", "Uganda": "Ugandan", "Rwanda": "", "El Salvador": "", "Canary Islands": "", "Tunisia": "Tunesien", "Cyprus": "Zypern", "Sudan": "",
        "Guadeloupe": "", "Hispaniola": "Haiti|Dominican Republic", "Haiti": "Haitian|Hispaniola", "Martinique": "", "Congo": "Kongo", "Democratic Republic of the Congo": "Congo|Kongo", "Jordan": "", "Nigeria": "Nigerian", "Ghana": "",
        "Togo": "", "Benin": "", "Ivory Coast": "Elfenbeinküste", "Senegal": "", "Pakistan": "", "Portugal": "Iberia", "Romania": "", "Jamaica": "Jamaican", "Dominica": "", "Saint Vincent and the Grenadines": "Union Island",
        "Equatorial Guinea": "Guinea", "Guinea": "", "Fiji": "", "France": "French|Corsica|Korsika", "Netherlands": "Texel", "Borneo": "Bornean",
        "Canada": "Kanada|Canadian|Ontario|Québec|Quebec|British Columbia", "Algeria": "Algerien|Algérie|Argelia|Algerian", "Korea": "South Korea|Südkorea|Corea|Corée|Korean",
        "Angola": "Angolan", "Bahamas": "", "Croatia": "Kroatien|Croatie|Hrvatska|Croatian|Dalmatia", "Seychelles": "Seychellen", "Lebanon": "Libanon|Liban", "Eritrea": "",
        "Brunei": "Borneo", "Solomon Islands": "Solomon|Salomonen", "Switzerland": "Schweiz|Suisse|Svizzera|Swiss|Ticino", "Libya": "Libyen", "Turkmenistan": "",
        "Russia": "Russland|Russie|Rusia|Rosja|Rusko|Russian|Siberia", "Afghanistan": "", "Cape Verde": "Kapverden", "Saudi Arabia": "Saudi-Arabien|Saudi", "Mauritius": "",
        "Austria": "Österreich|Autriche|Rakousko|Austrian", "Montenegro": "", "Djibouti": "Dschibuti", "Virgin Islands": "", "Saint Lucia": "",
        "Hungary": "Ungarn|Hongrie|Węgry|Maďarsko|Hungarian", "Mongolia": "Mongolei", "Réunion": "", "Bangladesh": "", "Sierra Leone": "", "Comoros": "Komoren",
        "Slovenia": "Slowenien|Slovenian", "Niger": "", "Eswatini": "Swaziland", "Montserrat": "", "Grenada": "", "Czech Republic": "Czechia|Tschechien|Česko|Czechy|Czech|Moravia",
        "Slovakia": "Slowakei|Slovensko|Slovak", "Serbia": "Serbien|Serbian", "Albania": "Albanien|Albanian", "United Arab Emirates": "UAE|Dubai", "Kazakhstan": "Kasachstan",
        "Germany": "Deutschland|Allemagne|Alemania|Niemcy|Německo|Germania|German|Bavaria|Bayern", "Ukraine": "Ukraina|Ukrajina|Ukrainian|Crimea", "Saint Kitts and Nevis": "", "Gambia": "",
        "Guinea-Bissau": "", "Burundi": "", "New Caledonia": "Neukaledonien", "Poland": "Polen|Pologne|Polska|Polsko|Polish", "Belgium": "Belgien|Belgique|België|Belgian",
        "Great Britain": "United Kingdom|UK|England|Scotland|Wales|Großbritannien|British|English|Scottish|Welsh", "Ireland": "Irland|Irlande|Irish",
        "Sweden": "Schweden|Suède|Sverige|Swedish", "Norway": "Norwegen|Norge|Norwegian", "Denmark": "Dänemark|Danmark|Danish", "Finland": "Finnland|Suomi|Finnish",
        "Bulgaria": "Bulgarien|Bulgarian", "North Macedonia": "Macedonia|Mazedonien", "Bosnia and Herzegovina": "Bosnia|Bosnien", "Malta": "Maltese", "Georgia": "Georgien|Georgian",
        "Armenia": "Armenien|Armenian", "Azerbaijan": "Aserbaidschan", "Uzbekistan": "Usbekistan", "Bhutan": "", "Burkina Faso": "", "Mali": "", "Liberia": "", "Chad": "Tschad",
        "Central African Republic": "", "South Sudan": "", "Lesotho": "", "Barbados": "", "Curaçao": "Curacao", "Vanuatu": "", "Hong Kong": "Hongkong", "Luxembourg": "Luxemburg",
        "Estonia": "Estland", "Latvia": "Lettland", "Lithuania": "Litauen", "Belarus": "Weißrussland", "Moldova": "Moldau", "Palestine": "", "Kuwait": "",
    }
)  # fmt: skip
#: What a range may say instead of a country it holds
_HOLDING = MappingProxyType(
    {
        "America": "Mexico|Brazil|United States|Peru|Colombia|Ecuador|Venezuela|Argentina|Paraguay|Bolivia|Costa Rica|Panama|Chile|French Guiana|Belize|Uruguay|Trinidad and Tobago|Guatemala|Guyana|Suriname|Honduras|Nicaragua|El Salvador|Cuba|Haiti|Jamaica|Puerto Rico|Dominican Republic|Martinique|Guadeloupe|Dominica|Canada|Bahamas|Virgin Islands|Saint Lucia|Montserrat|Grenada|Saint Kitts and Nevis|Barbados|Curaçao",
        "South America": "Brazil|Peru|Colombia|Ecuador|Venezuela|Argentina|Paraguay|Bolivia|Chile|French Guiana|Uruguay|Guyana|Suriname",
        "Northern South America": "Brazil|Colombia|Venezuela|French Guiana|Guyana|Suriname", "Amazonia": "Brazil|Peru|Colombia|Ecuador|Venezuela|Bolivia",
        "Central America": "Mexico|Costa Rica|Panama|Belize|Guatemala|Honduras|Nicaragua|El Salvador", "North America": "Mexico|United States|Canada", "Western North America": "Mexico|United States|Canada",
        "Caribbean": "Cuba|Haiti|Jamaica|Puerto Rico|Dominican Republic|Martinique|Guadeloupe|Dominica|Trinidad and Tobago|Hispaniola|Saint Vincent and the Grenadines|Bahamas|Virgin Islands|Saint Lucia|Montserrat|Grenada|Saint Kitts and Nevis|Barbados|Curaçao",
        "Africa": "South Africa|Tanzania|Kenya|Zimbabwe|Cameroon|Mozambique|Madagascar|Morocco|Ethiopia|Malawi|Namibia|Gabon|Somalia|Botswana|Egypt|Zambia|Uganda|Rwanda|Tunisia|Sudan|Congo|Democratic Republic of the Congo|Nigeria|Ghana|Togo|Benin|Ivory Coast|Senegal|Guinea|Equatorial Guinea|Algeria|Angola|Seychelles|Eritrea|Libya|Cape Verde|Mauritius|Djibouti|Réunion|Sierra Leone|Comoros|Niger|Eswatini|Gambia|Guinea-Bissau|Burundi|Burkina Faso|Mali|Liberia|Chad|Central African Republic|South Sudan|Lesotho",
        "East Africa": "Tanzania|Kenya|Ethiopia|Malawi|Mozambique|Somalia|Uganda|Rwanda|Zambia|Zimbabwe|Eritrea|Djibouti|Burundi|South Sudan|Comoros|Seychelles|Mauritius", "Southern Africa": "South Africa|Namibia|Botswana|Zimbabwe|Mozambique|Zambia|Malawi|Angola|Eswatini|Lesotho",
        "West Africa": "Cameroon|Nigeria|Ghana|Togo|Benin|Ivory Coast|Senegal|Guinea|Cape Verde|Sierra Leone|Niger|Gambia|Guinea-Bissau|Burkina Faso|Mali|Liberia", "Central Africa": "Cameroon|Gabon|Congo|Democratic Republic of the Congo|Equatorial Guinea|Rwanda|Angola|Chad|Central African Republic|Burundi", "North Africa": "Morocco|Egypt|Tunisia|Sudan|Algeria|Libya",
        "Asia": "India|Malaysia|Indonesia|Thailand|Philippines|China|Sri Lanka|Myanmar|Japan|Vietnam|Cambodia|Laos|Taiwan|Singapore|Nepal|Pakistan|Iran|Iraq|Syria|Israel|Türkiye|Oman|Yemen|Jordan|Korea|Brunei|Lebanon|Turkmenistan|Afghanistan|Saudi Arabia|Mongolia|Bangladesh|United Arab Emirates|Kazakhstan|Georgia|Armenia|Azerbaijan|Uzbekistan|Bhutan|Hong Kong|Palestine|Kuwait|Russia",
        "Southeast Asia": "Malaysia|Indonesia|Thailand|Philippines|Myanmar|Vietnam|Cambodia|Laos|Singapore|Borneo|Brunei", "South Asia": "India|Sri Lanka|Nepal|Pakistan|Bangladesh|Bhutan|Afghanistan", "East Asia": "China|Japan|Taiwan|Korea|Mongolia|Hong Kong",
        "Middle East": "Iran|Iraq|Syria|Israel|Türkiye|Oman|Yemen|Jordan|Egypt|Cyprus|Lebanon|Saudi Arabia|United Arab Emirates|Palestine|Kuwait", "Arabian Peninsula": "Oman|Yemen|Saudi Arabia|United Arab Emirates|Kuwait",
        "Europe": "Spain|Italy|Greece|Portugal|Romania|France|Cyprus|Netherlands|Türkiye|Croatia|Switzerland|Russia|Austria|Montenegro|Hungary|Slovenia|Czech Republic|Slovakia|Serbia|Albania|Germany|Ukraine|Poland|Belgium|Great Britain|Ireland|Sweden|Norway|Denmark|Finland|Bulgaria|North Macedonia|Bosnia and Herzegovina|Malta|Luxembourg|Estonia|Latvia|Lithuania|Belarus|Moldova", "Southern Europe": "Spain|Italy|Greece|Portugal|France|Cyprus|Croatia|Montenegro|Slovenia|Serbia|Albania|North Macedonia|Bosnia and Herzegovina|Malta", "Mediterranean": "Spain|Italy|Greece|France|Cyprus|Türkiye|Morocco|Egypt|Tunisia|Israel|Syria|Algeria|Libya|Croatia|Montenegro|Slovenia|Albania|Malta|Lebanon|Palestine", "Balkans": "Greece|Romania",
        "Western Europe": "Spain|Portugal|France|Netherlands|Belgium|Germany|Switzerland|Austria|Luxembourg|Great Britain|Ireland", "Southeastern Europe": "Greece|Romania|Türkiye|Croatia|Serbia|Montenegro|Albania|Bulgaria|North Macedonia|Bosnia and Herzegovina|Slovenia", "Eastern Europe": "Romania|Poland|Czech Republic|Slovakia|Hungary|Ukraine|Belarus|Moldova|Russia|Bulgaria",
        "Western Mediterranean": "Spain|Italy|France|Morocco|Tunisia|Algeria|Malta", "Eastern Mediterranean": "Greece|Cyprus|Türkiye|Egypt|Israel|Syria|Jordan|Lebanon|Palestine",
        "Northeast Africa": "Egypt|Sudan|Ethiopia|Somalia|Eritrea|Djibouti|South Sudan", "Indomalaya": "India|Sri Lanka|Nepal|Malaysia|Indonesia|Thailand|Philippines|China|Myanmar|Vietnam|Cambodia|Laos|Taiwan|Singapore|Borneo|Brunei|Bangladesh|Bhutan|Hong Kong",
        "Central Europe": "Germany|Switzerland|Austria|Poland|Czech Republic|Slovakia|Hungary|Slovenia", "British Isles": "Great Britain|Ireland", "Alps": "France|Switzerland|Italy|Austria|Germany|Slovenia",
        "Central Asia": "Kazakhstan|Turkmenistan|Uzbekistan|Afghanistan", "Caucasus": "Georgia|Armenia|Azerbaijan|Russia", "Antilles": "Cuba|Haiti|Jamaica|Puerto Rico|Dominican Republic|Martinique|Guadeloupe|Dominica|Hispaniola|Saint Lucia|Grenada|Montserrat",
        "Pacific Islands": "Fiji|Solomon Islands|New Caledonia|Vanuatu",
    }
)  # fmt: skip
_EVERYWHERE = ("cosmopolitan", "pantropical", "tropics", "worldwide", "introduced elsewhere")
_BROUGHT = " by introduction"  # behind an area: the animal may come from there all the same


def lies_within(place: str, areas: Iterable[str]) -> bool:
    """Whether a known place or its adjective lies in one of the ``areas`` of a native range, in the list's words."""
    key = plain_key(place)
    if key not in _holders():
        return False
    listed = [plain_key(area).removesuffix(_BROUGHT) for area in areas]
    if any(word in area for area in listed for word in _EVERYWHERE):
        return True
    return any(key == area or area in _holders()[key] for area in listed)


def is_place(word: str) -> bool:
    """Whether it is known where the place lies."""
    return plain_key(word) in _holders()


def country_of(locality: str) -> str | None:
    """The one country of the places of a locality, from the last to the first; None if it is not known or not one."""
    for part in reversed(re.split(r"[,;/()]", locality)):
        countries = _countries().get(plain_key(part), frozenset())
        if countries:
            return next(iter(countries)) if len(countries) == 1 else None
    return None


@cache
def _countries() -> dict[str, frozenset[str]]:
    """Countries of every folded word for a place."""
    found: dict[str, set[str]] = {}
    for country, words in _COUNTRIES.items():
        for word in (country, *filter(None, words.split("|"))):
            found.setdefault(plain_key(word), set()).add(country)
    return {word: frozenset(countries) for word, countries in found.items()}


@cache
def _holders() -> dict[str, frozenset[str]]:
    """Folded countries and wider areas of every folded word for a place."""
    over: dict[str, set[str]] = {}
    for wide, countries in _HOLDING.items():
        for country in countries.split("|"):
            over.setdefault(country, {country}).add(wide)
        over.setdefault(wide, {wide})
        for adjective in (wide, _adjective(wide)):
            over.setdefault(adjective, set()).update((wide, *countries.split("|")))
    found: dict[str, set[str]] = {}
    for word, areas in over.items():
        found.setdefault(plain_key(word), set()).update(map(plain_key, areas))
    for country, words in _COUNTRIES.items():
        for word in (country, *filter(None, words.split("|"))):
            found.setdefault(plain_key(word), set()).update(map(plain_key, over.get(country, {country})))
    return {word: frozenset(areas) for word, areas in found.items()}


def _adjective(area: str) -> str:
    """``South American`` of ``South America``."""
    return f"{area}n" if area.endswith("a") else area
