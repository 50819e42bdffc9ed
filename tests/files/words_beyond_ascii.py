"""Words with letters beyond ASCII as keepers' lists hold them, and the encodings of one byte that write each language.

Authors of names of spiders, scorpions and other invertebrates, and localities in which such were found. All values are
from memory: authors as catalogues of these groups spell them, localities as the countries' own maps do.
"""

from __future__ import annotations

WESTERN = ("cp1252", "mac_roman")
CENTRAL = ("cp1250",)

#: Language -> encodings of its tables, its words.
WORDS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "German": (
        WESTERN,
        ("Müller", "Schröder", "Gräbner", "Bösenberg", "Strübing", "Höfer", "Jäger", "Kästner", "Würzburg",
         "Köln", "Tübingen", "Großglockner", "Österreich"),
    ),
    "French": (
        WESTERN,
        ("Guérin-Méneville", "Brèthes", "Géhin", "Mécène", "Lucas, Algérie", "Forêt", "Pyrénées", "Hérault", "Réunion",
         "Ardèche", "Nîmes", "Besançon"),
    ),
    "Spanish": (
        WESTERN,
        ("Pérez-Miles", "González", "Muñoz", "Piñero", "Álvarez", "Yucatán", "Querétaro", "Cañón", "Michoacán", "Ríos",
         "Nuñez", "Peñalara", "México", "Pérez"),
    ),
    "Portuguese": (
        WESTERN,
        ("Mello-Leitão", "São Paulo", "Simões", "Guimarães", "Conceição", "Maranhão", "Goiás", "Araújo", "Brandão",
         "Rondônia"),
    ),
    "Nordic": (
        WESTERN,
        ("Sørensen", "Åland", "Malmö", "Jørgensen", "Tromsø", "Ångström", "Strøm", "Næss", "Skåne", "Östergötland"),
    ),
    "Czech": (
        CENTRAL,
        ("Řezáč", "Růžička", "Kůrka", "Šilhavý", "Přerov", "Česká Třebová", "Hádecká", "Dolanský", "Žďár", "Břeclav",
         "Kovařík", "Svatoň"),
    ),
    "Polish": (
        CENTRAL,
        ("Kulczyński", "Staręga", "Prószyński", "Wesołowska", "Łódź", "Kraków", "Gdańsk", "Śląsk", "Wałbrzych",
         "Jędrzejów", "Rozwałka", "Święty Krzyż"),
    ),
    "Hungarian": (
        CENTRAL,
        ("Szűcs", "Győr", "Loksa", "Szinetár", "Őrség", "Bükk", "Mátra", "Hortobágy", "Kőszeg", "Hűvösvölgy"),
    ),
    "Croatian": (CENTRAL, ("Nikolić", "Pavešić", "Hadži", "Šibenik", "Ćurčić", "Polenec, Črnomelj", "Međimurje")),
    "Romanian": (CENTRAL, ("Brăila", "Fuhn, Bucureşti", "Constanţa", "Iaşi", "Argeş", "Târgu Mureş", "Băile")),
    "Russian": (("cp1251",), ("Харитонов", "Спасский", "Тыщенко", "Крым", "Еськов", "Урал", "Михайлов")),
}  # fmt: skip
