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
    }
)  # fmt: skip
#: What a range may say instead of a country it holds
_HOLDING = MappingProxyType(
    {
        "America": "Mexico|Brazil|United States|Peru|Colombia|Ecuador|Venezuela|Argentina|Paraguay|Bolivia|Costa Rica|Panama|Chile|French Guiana|Belize|Uruguay|Trinidad and Tobago|Guatemala|Guyana|Suriname|Honduras|Nicaragua|El Salvador|Cuba|Haiti|Jamaica|Puerto Rico|Dominican Republic|Martinique|Guadeloupe|Dominica",
        "South America": "Brazil|Peru|Colombia|Ecuador|Venezuela|Argentina|Paraguay|Bolivia|Chile|French Guiana|Uruguay|Guyana|Suriname",
        "Northern South America": "Brazil|Colombia|Venezuela|French Guiana|Guyana|Suriname", "Amazonia": "Brazil|Peru|Colombia|Ecuador|Venezuela|Bolivia",
        "Central America": "Mexico|Costa Rica|Panama|Belize|Guatemala|Honduras|Nicaragua|El Salvador", "North America": "Mexico|United States", "Western North America": "Mexico|United States",
        "Caribbean": "Cuba|Haiti|Jamaica|Puerto Rico|Dominican Republic|Martinique|Guadeloupe|Dominica|Trinidad and Tobago|Hispaniola|Saint Vincent and the Grenadines",
        "Africa": "South Africa|Tanzania|Kenya|Zimbabwe|Cameroon|Mozambique|Madagascar|Morocco|Ethiopia|Malawi|Namibia|Gabon|Somalia|Botswana|Egypt|Zambia|Uganda|Rwanda|Tunisia|Sudan|Congo|Democratic Republic of the Congo|Nigeria|Ghana|Togo|Benin|Ivory Coast|Senegal|Guinea|Equatorial Guinea",
        "East Africa": "Tanzania|Kenya|Ethiopia|Malawi|Mozambique|Somalia|Uganda|Rwanda|Zambia|Zimbabwe", "Southern Africa": "South Africa|Namibia|Botswana|Zimbabwe|Mozambique|Zambia|Malawi",
        "West Africa": "Cameroon|Nigeria|Ghana|Togo|Benin|Ivory Coast|Senegal|Guinea", "Central Africa": "Cameroon|Gabon|Congo|Democratic Republic of the Congo|Equatorial Guinea|Rwanda", "North Africa": "Morocco|Egypt|Tunisia|Sudan",
        "Asia": "India|Malaysia|Indonesia|Thailand|Philippines|China|Sri Lanka|Myanmar|Japan|Vietnam|Cambodia|Laos|Taiwan|Singapore|Nepal|Pakistan|Iran|Iraq|Syria|Israel|Türkiye|Oman|Yemen|Jordan",
        "Southeast Asia": "Malaysia|Indonesia|Thailand|Philippines|Myanmar|Vietnam|Cambodia|Laos|Singapore|Borneo", "South Asia": "India|Sri Lanka|Nepal|Pakistan", "East Asia": "China|Japan|Taiwan",
        "Middle East": "Iran|Iraq|Syria|Israel|Türkiye|Oman|Yemen|Jordan|Egypt|Cyprus", "Arabian Peninsula": "Oman|Yemen",
        "Europe": "Spain|Italy|Greece|Portugal|Romania|France|Cyprus|Netherlands|Türkiye", "Southern Europe": "Spain|Italy|Greece|Portugal|France|Cyprus", "Mediterranean": "Spain|Italy|Greece|France|Cyprus|Türkiye|Morocco|Egypt|Tunisia|Israel|Syria", "Balkans": "Greece|Romania",
        "Western Europe": "Spain|Portugal|France|Netherlands", "Southeastern Europe": "Greece|Romania|Türkiye", "Eastern Europe": "Romania",
        "Western Mediterranean": "Spain|Italy|France|Morocco|Tunisia", "Eastern Mediterranean": "Greece|Cyprus|Türkiye|Egypt|Israel|Syria|Jordan",
        "Northeast Africa": "Egypt|Sudan|Ethiopia|Somalia", "Indomalaya": "India|Sri Lanka|Nepal|Malaysia|Indonesia|Thailand|Philippines|China|Myanmar|Vietnam|Cambodia|Laos|Taiwan|Singapore|Borneo",
        "Pacific Islands": "Fiji",
    }
)  # fmt: skip
_EVERYWHERE = ("cosmopolitan", "pantropical", "tropics", "worldwide", "introduc")


def lies_within(place: str, areas: Iterable[str]) -> bool:
    """Whether a known place or its adjective lies in one of the ``areas`` of a native range, in the list's words."""
    key = plain_key(place)
    if key not in _holders():
        return False
    listed = [plain_key(area) for area in areas]
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
