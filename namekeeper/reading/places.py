# ruff: noqa: E501 - tables of words: one meaning, one line
"""Places that animals on tags come from: countries (ISO 3166 short names and everyday ones), parts of countries, islands.

Beside English the names in which they stand on German, French, Spanish, Italian, Dutch, Polish and Czech tags where the
letters differ. Data only; folded like all tag words.
"""

from __future__ import annotations

COUNTRIES = (
    "Argentina|Argentinien|Australia|Australien|Belize|Benin|Bolivia|Bolivien|Botswana|Brazil|Brasil|Brasilien|Brazylia"
    "|Brésil|Brazilië|Brunei|Burma|Myanmar|Cambodia|Kambodscha|Cameroon|Kamerun|Cameroun|Chile|Chili|Cile|Chilli|China"
    "|Colombia|Kolumbien|Kolumbia|Kolumbie|Colombie|Congo|Kongo|Costa Rica|Cuba|Kuba|Cyprus|Zypern|Dominican Republic"
    "|DomRep|Ecuador|Ekuador|Egypt|Ägypten|El Salvador|Ethiopia|Äthiopien|Equatorial Guinea|French Guiana|Guyane|Gabon"
    "|Gabun|Ghana|Greece|Griechenland|Guatemala|Guinea|Guyana|Haiti|Honduras|India|Indien|Inde|Indie|Indonesia|Indonesien"
    "|Iran|Iraq|Israel|Italy|Italien|Italia|Ivory Coast|Elfenbeinküste|Jamaica|Japan|Jordan|Kenya|Kenia|Laos|Madagascar"
    "|Madagaskar|Malawi|Malaysia|Malaisie|Malezja|Mexico|México|Mexiko|Mexique|Messico|Meksyk|Morocco|Marokko|Maroc"
    "|Mozambique|Mosambik|Namibia|Nepal|New Zealand|Nicaragua|Nigeria|Oman|Pakistan|Panama|Panamá|Papua New Guinea|Papua"
    "|Paraguay|Peru|Perú|Pérou|Philippines|Philippinen|Filipinas|Portugal|Puerto Rico|Romania|Rwanda|Senegal|Singapore"
    "|Singapur|Somalia|Somaliland|South Africa|Südafrika|Spain|Spanien|España|Sri Lanka|Ceylon|Sudan|Suriname|Surinam"
    "|Syria|Taiwan|Tanzania|Tansania|Tanzanie|Thailand|Thaïlande|Tajlandia|Thajsko|Togo|Trinidad|Trinidad and Tobago"
    "|Tobago|Tunisia|Tunesien|Turkey|Türkei|Uganda|Uruguay|USA|Venezuela|Vietnam|Yemen|Jemen|Zambia|Sambia|Zimbabwe"
)
REGIONS = (
    "Amazonas|Amazon|Amazonia|Andalusia|Andaman|Antilles|Arizona|Arusha|Assam|Atacama|Bahia|Baja California|Bali|Banda"
    "|Belem|Boa Vista|Borneo|Campeche|Canary Islands|Cape|Caribbean|Ceará|Chaco|Chiapas|Chihuahua|Chiriquí|Colima|Concepción"
    "|Cuzco|Dominica|Durango|Fiji|Flores|Florida|Fortuna|Galapagos|Goiás|Guadeloupe|Guerrero|Guanacaste|Gujarat|Halmahera"
    "|Hidalgo|Hispaniola|Iquitos|Jalisco|Java|Kalahari|Kalimantan|Karnataka|Kerala|Kigoma|Koh Samui|Kruger|Langkawi|Leticia"
    "|Lombok|Loreto|Luzon|Manaus|Maranhão|Martinique|Mato Grosso|Mexico City|Michoacán|Mindanao|Minas Gerais|Misiones"
    "|Mombasa|Morelos|Mysore|Nayarit|New Guinea|New Mexico|Norte de Santander|Oaxaca|Orissa|Pará|Pampas|Panay|Patagonia"
    "|Pernambuco|Petén|Puebla|Puerto Ayacucho|Pucallpa|Queensland|Quintana Roo|Rio Grande do Sul|Roatán|Roraima|Sabah"
    "|Sahara|Santa Cruz|Santander|Sarawak|Seram|Socotra|Sokotra|Sonora|Sulawesi|Sumatra|Tabasco|Tamaulipas|Tamil Nadu|Tena"
    "|Texas|Tingo Maria|Transvaal|Tucumán|Uitenhage|Union Island|Usambara|Vera Cruz|Veracruz|West Java|Yucatán|Zanzibar"
    "|Zululand|Antalya|Crete|Kreta|Corsica|Korsika|Sardinia|Sicily|Balkans|Iberia|Namaqualand|Cape Town|Western Cape|Texel"
)
