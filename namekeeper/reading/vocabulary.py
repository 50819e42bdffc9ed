# ruff: noqa: E501 - tables of words: one meaning, one line
"""Words of the trade on tags, by meaning and language: data only.

Source: common practice, no source, but for the animal-group words, which are dictionary words (Princeton WordNet 3.0,
Open Multilingual Wordnet, the Ding dictionary). Words of one meaning are parted by ``|``; case, marks and hyphens are
folded by the reader, except in ``ABBREVIATIONS``, which count only in the capitals they stand in here.
"""

from __future__ import annotations

from types import MappingProxyType

# male.female.unsexed of one animal; a number before the word multiplies it
SEXES = MappingProxyType(
    {
        "male": "male|males|boy|boys|Männchen|Männer|männlich|männliche|Bock|Böcke|mâle|mâles|macho|machos|mannetje"
        "|mannetjes|samiec|samce|samców|samec|samci|uros|hím|erkek|самец|самцы|самець|αρσενικό|jantan|mužjak|đực|ตัวผู้|수컷|雄|公|maschio|maschi|hane|hanar|man|オス|♂|♂♂",
        "female": "female|females|fem|fems|girl|girls|Weibchen|Weibl|weiblich|weibliche|Weib|Mädel|femelle|femelles|hembra"
        "|hembras|vrouw|vrouwtje|vrouwtjes|samica|samičky|samička|samic|naaras|nőstény|dişi|самка|самки|θηλυκό|betina|ženka|ตัวเมีย|암컷|雌|母|femmina|femmine|fêmea|fêmeas|hona|honor|メス|♀|♀♀",
        "female or females": "samice",  # Czech: one female; Polish: several
        "unsexed": "unsexed|unsex|unknown sex|unbestimmt|unbest|non sexé|non sexée|non sexés|sin sexar|ongesext|onbekend"
        "|nieseksowany|nieseksowana|nieseksowane|nesexováno|nesexovaný|non sessato|non sessata|non sessati|osexad|ukjønnet|ikke kjønnsbestemt|ikke kønsbestemt|inte könad|ej könad|cinsiyetsiz|пол не определён|пол не определен|性別不明",
        "pair": "pair|pairs|Paar|Pärchen|couple|pareja|koppel|paartje|pár|coppia|casal|par|parka|ペア|⚥",
    }
)
COUNT_WORDS = (
    "x|×|Stk|Stück|Stueck|St|szt|sztuk|ks|pcs|pc|pz|pieces|pieza|piezas|esemplari|esemplare|stuks|pièces|ex|匹|頭"
)
GROUPS = (
    "trio|group|communal|colony|Zuchtgruppe|Zuchtansatz|Gruppe|groupe|colonie|grupo|colonia|groep|grupa|skupina|gruppo"
)
DOUBT_OF_SEX = "poss|possible|possibly|prob|probable|probably|suspect|suspected|maybe|likely|most likely|presumed|assumed|vermutlich|wahrscheinlich|vermtl"
DOUBT_OF_SEX_MORE = "probablement|présumé|présumée|posible|waarschijnlijk|prawdopodobnie|asi|zřejmě|probabile|vsl"

STAGES = MappingProxyType(
    {
        "spiderling": "sling|slings|s'ling|s'lings|spiderling|spiderlings|spinneling|spinnelingen|Jungspinne|Jungspinnen"
        "|bébé|bébés|mládě|mláďata|cría|crías|filhote|filhotes|piccolo|piccoli|pullus|pulli|baby|babies|maluch|maluchy",
        "young scorpion": "scorpling|scorplings",
        "young isopod": "mancae|manca",
        "young centipede": "pedeling|pedelings",
        "nymph": "nymph|nymphs|Nymphe|Nymphen|nimfa|nimfy|ninfa|ninfas|ninfe|nymfa|nymfy|nimf|nimfen",
        "larva": "larva|larvae|Larve|Larven|larve|larves|larwa|larwy|larven|larvas|larvy|larver|larv|grub|grubs|幼虫",
        "egg case": "ooth|ootheca|oothecae|ooths|Oothek|Ootheken|oothèque|ooteca|ootecas|ooteka|ooteki|ootheek",
        "egg sac": "eggsac|egg sac|eggsacs|sac|Kokon|Kokons|cocon|cocoon|kokony|ooteca de huevos",
        "eggs": "eggs|Eier|œufs|oeufs|huevos|eieren|jaja|vejce|uova|ovos",
        "eggs with legs": "EWL|eggs with legs",
        "juvenile": "juv|juvi|juvie|juvy|juvenile|juveniles|juvenil|juvenile Tiere|Jungtier|Jungtiere|juvénile|juvéniles"
        "|juveniles|juveniel|juwenil|podrostek|juvenilní|juvenilny|giovane|giovani|juvenis|幼体|ベビー",
        "subadult": "sub|subs|subadult|subadults|sub adult|subad|subadulte|subadultes|subadulto|subadulta|subadultos"
        "|subadultní|subadultny|sub-adult|亜成体",
        "penultimate instar": "penult|penultimate|pen",
        "adult": "adult|adults|adulte|adultes|adulto|adulta|adultos|adultas|mature|matured|ausgewachsen|geschlechtsreif"
        "|volwassen|dorosły|dorosła|dorosłe|dospělá|dospělý|dospělí|dospělé|vuxen|ad|ult|ultimate|成体|成虫|Imago|imago|RH|Reifehäutung|maduro|madura|maturo|matura",
    }
)

# sex and stage of one abbreviation, in these capitals only
ABBREVIATIONS = MappingProxyType(
    {
        "M": ("male", ""), "F": ("female", ""), "MM": ("male", "adult"), "MF": ("female", "adult"),
        "AM": ("male", "adult"), "AF": ("female", "adult"), "SAF": ("female", "subadult"), "SAM": ("male", "subadult"),
        "IM": ("male", "juvenile"), "PM": ("male", "penultimate instar"), "UM": ("male", "adult"),
        "US": ("unsexed", ""), "NN": ("unsexed", ""), "NS": ("unsexed", ""), "SA": ("", "subadult"),
    }
)  # fmt: skip

ORIGINS_ANY_CASE = "CB|CBB|WC|LTC|NZ|DNZ|ENZ|EUNZ|WF|FZ|F0|F1|F2|F3|F4|F5|captive bred|captive born|captive hatched"
ORIGINS_CAPITALS = "CH|CF|NC|WD|CITES"
ORIGIN_WORDS = (
    "wild caught|wildcaught|long term captive|imported|import|farmed|Nachzucht|Nachzuchten|Nachzuchttiere|Wildfang"
    "|Wildfänge|Farmzucht|eigene Nachzucht|né en captivité|née en captivité|nés en captivité|sauvage|nacido en cautividad"
    "|nacida en cautividad|cría en cautividad|salvaje|nakweek|eigen kweek|wildvang|hodowla|z hodowli|z odłowu|odłów|odchov"
    "|vlastní odchov|odchyt|nato in cattività|nata in cattività|nati in cattività|allevato|selvatico|di cattura"
    "|nascido em cativeiro|selvagem|egen uppfödning|viltfångad|累代|pure bloodline|old bloodline|bloodline"
)

SIZE_KINDS = MappingProxyType(
    {
        "body": "BL|body|body length|bodylength|KL|Körperlänge|Körper|corps|longueur du corps|cuerpo|lichaam|lichaamslengte|DC"
        "|długość ciała|ciała|v těle|těla|tělo|corpo|LC",
        "legspan": "DLS|LS|legspan|leg span|legspan|SW|BSW|Spannweite|Beinspannweite|envergure|envergadura|spanwijdte"
        "|rozpětí|rozpiętość|rozstaw odnóży|apertura|apertura zampe|span",
        "": "GL|Gesamtlänge|total length|TL",
    }
)

QUALIFIERS = MappingProxyType(
    {
        "cf.": "cf|confer|conf", "aff.": "aff", "nr.": "nr|near", "prox.": "prox", "ex gr.": "ex gr|gr",
        "sp.": "sp|spec|species|n sp|indet", "spp.": "spp", "complex": "complex|agg|Komplex|sensu lato",
    }
)  # fmt: skip
HYBRIDS = (
    "hybrid|hybrids|Hybride|Hybriden|hybrides|híbrido|híbrida|ibrido|ibridi|hybryda|hybrydy|kříženec|kruising|crossbreed"
    "|crossbred|Kreuzung|Mischling|croisement|croisé|croisée|cruce|cruza|cruzamento|incrocio|krzyżówka|mieszaniec|korsning|krydsning"
    "|hibrid|hibridi|hibrit|melez|kacukan|silangan|гибрид|гібрид|помесь|υβρίδιο|ハイブリッド|交雑"
)
COLOUR_FORMS = "TCF|RCF|NCF|DCF|BCF|highland|lowland|hobby form|hobby|colour form|color form|Farbform|odmiana"
PLACE_MARKS = (
    "type locality|locality|loc|local|locale|Herkunft|Fundort|FO|localité|localidad|vindplaats|lokalizacja|lokalita|località|from|aus|origin"
    "|origine|origen|provenance|pochodzenie"
)
#: Who sold or bred an animal stands behind these; a sign of one word counts only before a colon
SELLER_MARKS = MappingProxyType(
    {
        "en": "bought from|bought at|purchased from|acquired from|obtained from|bred by|sold by|from breeder|ex breeder"
        "|from seller|breeder|seller|vendor|dealer",
        "de": "gekauft von|gekauft bei|erworben von|erworben bei|gezüchtet von|von Züchter|vom Züchter|Züchter|Züchterin"
        "|Verkäufer|Händler",
        "fr": "acheté chez|acheté à|achetée chez|achetée à|élevé par|élevée par|éleveur|éleveuse|vendeur|vendeuse",
        "es": "comprado a|comprada a|criado por|criada por|criador|criadora|vendedor|vendedora",
        "it": "comprato da|comprata da|acquistato da|allevato da|allevata da|allevatore|allevatrice|venditore",
        "nl": "gekocht bij|gekocht van|gekweekt door|kweker|verkoper", "pt": "comprado de|comprada de|criado por",
        "pl": "kupiony od|kupiona od|kupione od|hodowca|sprzedawca", "cs": "koupeno od|koupená od|chovatel|prodejce",
        "sv": "köpt av|köpt från|uppfödd av|uppfödare|säljare",
    }
)  # fmt: skip
#: Words that make a place of what stands behind "from", which may be a person as well (dictionary words)
PLACE_WORDS = (
    "Rio|Río|Sierra|Mount|Mt|Lake|Lago|Cerro|Isla|Islas|Island|Islands|Isle|Valley|River|Mountain|Mountains|Hills|Province"
    "|State|Bay|Cape|Cabo|San|Santa|Puerto|Port|Fort|Koh|Gunung|National|Park|Forest|Desert|Coast|North|South|East|West"
    "|Northern|Southern|Eastern|Western|Central|Upper|Lower|Cave|Canyon|Falls|Beach|Village|Municipality|Department|District"
)
FORMER_MARKS = (
    "ex|formerly|früher|ehemals|ehem|olim|syn|synonym|fka|vormals|antes|anciennement|dříve|dawniej|vroeger|was|old name"
)

# What a seller says of a name, by language: dictionary words. Those from Danish on are from memory; of the Croatian,
# Finnish, Greek, Hungarian, Indonesian, Norwegian and Turkish ones four of five are in FreeDict's dictionaries (2022).
ALTERNATIVES = MappingProxyType(
    {
        "en": "or|either|vs|versus|and or|respectively|alternatively",
        "de": "oder|entweder|beziehungsweise|bzw|beziehungsw",
        "fr": "ou|ou bien|soit", "es": "o|o bien", "it": "oppure|ovvero|ossia", "nl": "of|ofwel|oftewel|dan wel",
        "pl": "lub|albo|bądź|względnie", "cs": "nebo|anebo|případně|popřípadě", "sv": "eller", "pt": "ou então", "la": "vel",
        "fi": "tai|vai", "hu": "vagy|avagy", "hr": "ili", "ro": "sau|ori", "sk": "alebo", "tr": "veya|yahut|ya da",
        "id": "atau", "tl": "o kaya", "vi": "hoặc", "ru": "или|либо", "uk": "або|чи", "el": "ή|είτε", "ja": "または|もしくは",
        "zh": "或|或者", "ko": "또는", "th": "หรือ",
    }
)  # fmt: skip
MAYBE = MappingProxyType(
    {
        "en": "maybe|perhaps|possibly|probably|presumably|supposedly|not sure|unsure|might be|could be|may be|i think|i guess"
        "|likely|apparently|unconfirmed|unverified|tentative|tentatively|assumed|assumed to be|presumed|suspected|suspected to be"
        "|allegedly|alleged|reportedly|so called|questionable|doubtful|dubious id|uncertain|seems to be|looks to be|appears to be"
        "|id needed|needs id|id pending|id wanted|id unsure|to be confirmed|to be identified|to be determined|tbc|tbd"
        "|sold as|sold to me as|bought as|traded as|labeled as|labelled as|imported as|advertised as",
        "de": "vermutlich|wahrscheinlich|vielleicht|eventuell|evtl|möglicherweise|angeblich|wohl|unsicher|nicht sicher"
        "|fraglich|ungeklärt|zu bestimmen|noch zu bestimmen|scheint|scheinbar|anscheinend|sogenannte|sogenannter|sog"
        "|verkauft als|gekauft als|erworben als|angeboten als|bestimmung unsicher",
        "fr": "peut être|probablement|sans doute|pas sûr|soi disant|présumé|présumée|incertain|incertaine|douteux|douteuse"
        "|à confirmer|à vérifier|à déterminer|vendu comme|vendue comme|acheté comme|achetée comme",
        "es": "quizás|quizá|tal vez|probablemente|posiblemente|acaso|supuesto|supuesta|dudoso|dudosa|por confirmar"
        "|por identificar|sin confirmar|vendido como|vendida como|comprado como|comprada como",
        "it": "forse|probabilmente|magari|presunto|presunta|dubbio|dubbia|incerto|incerta|da verificare|da confermare"
        "|da determinare|venduto come|venduta come",
        "nl": "misschien|waarschijnlijk|mogelijk|wellicht|vermoedelijk|zogenaamd|zogenaamde|twijfelachtig|niet zeker|onzeker"
        "|te bepalen|verkocht als|gekocht als",
        "pl": "może|chyba|prawdopodobnie|być może|rzekomo|rzekomy|rzekoma|niepewny|niepewna|do sprawdzenia|do oznaczenia"
        "|do potwierdzenia|sprzedany jako|sprzedana jako|kupiony jako|kupiona jako",
        "cs": "možná|snad|pravděpodobně|asi|údajně|údajný|údajná|nejistý|nejistá|k určení|prodáno jako|koupeno jako",
        "sv": "kanske|troligen|möjligen|osäker|osäkert|inte säker|förmodligen|antagligen|såld som|köpt som",
        "pt": "talvez|provavelmente|possivelmente|suposto|suposta|duvidoso|duvidosa|a confirmar|vendido como",
        "da": "måske|muligvis|sandsynligvis|formentlig|formodentlig|usikker|ikke sikker|solgt som|købt som",
        "no": "kanskje|muligens|sannsynligvis|trolig|antagelig|antakelig",
        "fi": "ehkä|mahdollisesti|luultavasti|todennäköisesti|epävarma|ei varma", "hr": "možda|vjerojatno|vjerovatno|verovatno|valjda|nisam siguran",
        "hu": "talán|lehet|valószínűleg|esetleg|feltehetően|bizonytalan|nem biztos", "sk": "možno|pravdepodobne",
        "ro": "poate|probabil|posibil|nu sunt sigur", "tr": "belki|galiba|muhtemelen|olabilir|sanırım|emin değil|emin değilim",
        "id": "mungkin|barangkali|kemungkinan|diduga|agaknya|rasanya|tidak pasti|tak pasti|belum pasti|kurang pasti|dijual sebagai",
        "tl": "siguro|marahil|baka|hindi sigurado", "vi": "có thể|chắc là|không chắc",
        "ru": "возможно|может быть|наверное|вероятно|предположительно|похоже|вроде|сомнительно|не уверен|не уверена|под вопросом",
        "uk": "можливо|мабуть|ймовірно", "el": "ίσως|μάλλον|πιθανόν|πιθανώς|μπορεί", "ja": "たぶん|多分|おそらく|かも",
        "zh": "可能|也许|大概", "ko": "아마|아마도", "th": "อาจจะ|อาจ|น่าจะ",
    }
)  # fmt: skip
NEGATIONS = MappingProxyType(
    {
        "en": "not|no|non|never|isn't|isnt|ain't|wasn't|nor|neither|rather than|instead of|except|almost|nearly|close to|closest to"
        "|wrong|wrong name|wrong id|wrong label",
        "de": "nicht|kein|keine|keinen|keiner|keines|keinerlei|keinesfalls|niemals|statt|anstatt|weder|falsch|falsche|nahe",
        "fr": "pas|pas de|n'est pas|jamais|aucun|aucune", "es": "nunca|ningún|ninguno|ninguna|tampoco|casi", "it": "nessun|nessuna|mica|quasi",
        "nl": "niet|geen|nooit", "pl": "nie", "cs": "není|ne|nikoli|nikoliv|žádný|žádná", "sv": "inte|ingen|ej|icke",
        "pt": "não|nem|nenhum|nenhuma",
        "da": "ikke|aldrig|intet|ingen", "no": "ikkje|aldri", "fi": "ei|ei ole|eivät", "hu": "nincs|soha", "hr": "nije|nisu|nikad",
        "ro": "nu este|nu e", "sk": "nie je", "tr": "değil|değildir", "id": "bukan|tidak|belum|bukanlah", "tl": "hindi",
        "vi": "không|không phải", "ru": "не|нет|никогда", "uk": "ні|немає", "el": "όχι|δεν|μη", "ja": "ではない|じゃない|違う",
        "zh": "不是|非", "ko": "아님|아니다", "th": "ไม่ใช่|ไม่",
    }
)  # fmt: skip
LIKENESSES = MappingProxyType(
    {
        "en": "look alike|lookalike|looks like|lookalikes|resembles|resembling|imitation|imitator|imitating|mimic|mimics"
        "|mimicking|similar|similar to|look a like|like a|like an|look like|looking like|fake|false|replica|pseudo|unlike|misidentified"
        "|mislabeled|mislabelled|misnamed|wrongly|not to be confused with|confused with|related|related to|relative of"
        "|relative|compare|compared to|same genus as|or so|or something|or similar|or whatever"
        "|knock off|knockoff|wannabe|impostor|imposter",
        "de": "ähnlich|ähnlich wie|ähnelt|Imitation|Imitat|Doppelgänger|sieht aus wie|verwechselt|falsch bestimmt|keine echte"
        "|aussehen wie|Falschbestimmung|verwandt mit|oder so|oder so was|oder ähnlich|oder ähnliche|oder ähnliches|o ä|u ä|nach Art",
        "fr": "sosie|semblable à|ressemble à|ressemblant à|imitant|faux|fausse|proche de|apparenté à|ou similaire|ou autre",
        "es": "parecido a|parecida a|imitación|imitador|falso|falsa|similar a|cercano a|cercana a|o similar|o parecido|o parecida",
        "it": "simile a|imitazione|sosia|somiglia|falso|falsa|come una|come un|o simile|o simili|vicino a",
        "nl": "lijkt op|lijkend op|imitatie|dubbelganger|nep|valse|zoals|verwant aan|of zo|of zoiets|of vergelijkbaar|gelijkend op",
        "pl": "podobny do|podobna do|imitacja|sobowtór|podobny|podobna|lub podobny|lub podobna",
        "cs": "podobný|podobná|napodobenina|dvojník|imitace|nebo podobný", "sv": "liknar|imitation|lik|liknande|precis som|eller liknande",
        "pt": "imitação|parecido com|parecida com|sósia|semelhante a|ou similar", "la": "auct|auctorum|auct non|sensu auct|sensu auctorum|nec|non auct",
        "da": "ligner|lignende|efterligning|eller lignende", "no": "likner|liknende|etterligning", "fi": "muistuttaa|näköinen|kaltainen|tapainen|jäljitelmä",
        "hu": "hasonló|hasonlít|utánzat|olyan mint|vagy hasonló", "hr": "sličan|slična|slično|liči na|nalik", "ro": "asemănător|asemănătoare|seamănă cu",
        "tr": "benzer|benzeri|benziyor|sahte|taklit", "id": "mirip|seperti|serupa|menyerupai|tiruan|palsu",
        "tl": "kamukha|katulad", "vi": "giống|giống như",
        "ru": "похож|похожа|похож на|похожа на|похожий на|похожая на|похожи на|подобный|подобная|имитация", "uk": "схожий|схожа|схожий на|схожа на|подібний",
        "el": "μοιάζει με|σαν|παρόμοιο|παρόμοια", "ja": "似|に似た|もどき|そっくり", "zh": "像|好像|类似", "ko": "비슷한", "th": "คล้าย|เหมือน",
    }
)  # fmt: skip
#: Say that an animal is only like another where they stand right beside its name: "versicolor type"
MANNERS = MappingProxyType(
    {
        "en": "type|types|style|styles|styled|look|like|ish|esque|vibe|vibes|dupe",
        "de": "Typ|Typus|Stil|Optik|artig|artige|artiger|ähnliche|ähnlicher", "fr": "genre", "es": "tipo|estilo|aspecto",
        "it": "stile|aspetto", "nl": "stijl|achtig|achtige", "pl": "typu|styl", "sv": "stil|aktig|utseende", "pt": "aparência",
        "da": "agtig|udseende", "fi": "tyyppi|tyyppinen|tyylinen", "hu": "típusú|stílusú|féle|szerű", "hr": "tipa", "ro": "stilul",
        "tr": "gibi|tipi|tarzı", "id": "tipe|gaya", "ru": "тип|типа|типу|стиль", "el": "τύπου|στυλ", "ja": "風|タイプ", "zh": "型|类型|风格",
    }
)  # fmt: skip
#: The same where they stand right before a name: "wie B. smithi"
COMPARISONS = MappingProxyType(
    {
        "en": "kind of|sort of|kinda|kinda like|just like", "de": "wie|wie eine|wie ein", "fr": "comme|comme un|comme une",
        "es": "como|como una", "pl": "jak", "cs": "jako", "sv": "som en", "pt": "como um|como uma", "da": "ligesom|som en",
        "fi": "kuin", "hr": "kao", "ro": "ca un|ca o", "id": "macam", "tl": "parang", "ru": "как",
    }
)  # fmt: skip
UNKNOWN = MappingProxyType(
    {
        "en": "unknown|unidentified|undetermined|mystery|unnamed", "de": "unbekannt|unbekannte|unbestimmte",
        "fr": "inconnu|inconnue", "es": "desconocido|desconocida", "it": "sconosciuto|sconosciuta", "nl": "onbekende",
        "pl": "nieznany|nieznana", "cs": "neznámý|neznámá", "sv": "okänd", "pt": "desconhecido|desconhecida",
    }
)  # fmt: skip
#: May stand between a negation and what is denied; they name nothing
FUNCTION_WORDS = MappingProxyType(
    {
        "en": "the|a|an|this|is|it|be|to|of|true|real|actually|really|any|from|same|as", "de": "der|die|das|ein|eine|einen|echte|echter|ist|zu",
        "fr": "le|la|les|un|une|de|du|est|vrai|vraie", "es": "el|la|los|un|una|es|de", "it": "il|lo|la|un|una|di|è",
        "nl": "de|het|een|is", "pl": "jest|to", "cs": "je|to", "sv": "en|ett|är", "pt": "o|a|um|uma|é",
    }
)  # fmt: skip

CONDITIONS = (
    "premolt|pre molt|premoult|pre moult|postmolt|post molt|post moult|freshly molted|freshly moulted|fresh molt|fresh|molt"
    "|moult|molted|moulted|gravid|mated|paired|unmated|virgin|eating|eats|feeding|fed|well started|started|missing leg|legs"
    "|last molt|LM|rehouse|rehoused|moved|healthy|nice|big|Häutung|gehäutet|frisch gehäutet|vor der Häutung|verpaart"
    "|unverpaart|Exuvie|mue|muée|exuvie|gestante|accouplée|muda|premuda|preñada|vervelling|vervelt|wylinka|po wylince"
    "|przed wylinką|zapłodniona|svlek|po svleku|před svlekem|spářená|muta|premuta|gravida|accoppiata|ecdise|ömsning|脱皮"
    "|sexed|confirmed|molt confirmed|ventral|sessata|sexado|sexada|sexé|sexée|sicher|quick sale|beautiful|stunning|rare"
    "|wie abgebildet|wie auf Foto|wie auf dem Foto|wie auf Bild|wie auf dem Bild|as pictured|like new|comme sur la photo|como en la foto|type specimen"
    "|type series|type material|type species|holotype|paratype|sold as is|sold as seen|breeder|breeders|breeding|breeding loan|loan|Zuchtleihe|for sale|available|new|last one|only|one|two|three|left"
    "|arboreal|terrestrial|fossorial|burrower|OW|NW|old world|new world|please|ask|inv|box|cup|deli|vial|enclosure"
    "|docile|aggressive|fast|growing|heavy webber|papers|with|no|not|the|and|my|to|in|on|at|for|by|all|see|this|is|it|a|an"
    "|und|mit|der|die|das|ist|im|von|vom|zu|zum|sehr|schön|gut|frisst|gesund|et|avec|le|la|les|des|du|de|très|y|con|el|los"
    "|sex|las|en|met|het|een|zeer|i|z|od|bardzo|ładna|s|se|velmi|krásná|e|il|di|del|molto|bella|from|date|since|seit|depuis|lot|looking|wanted|suche|gebe|ab|biete|verkaufe|vend|vends|vendo|te koop|koop"
    "|sprzedam|prodám|nabízím|cerco|busco|cherche|zusammen|gemischt|mixed|caution|handle|do|culture|cultures|starter|Kultur|kweek|kweekset|souche|cultivo|coltura|cultura|good|well|home"
    "|kostenlos|gratis|Tiere|animals|pet shop|shop|name|asap|envío|aparte|breeding pair|proven"
)
PRICE_WORDS = (
    "each|ea|ono|OBO|SOLD|free|shipped|posted|je|VB|VHB|FP|Festpreis|reserviert|reserved|verkauft|zu verschenken|geschenkt|pièce"
    "|la pièce|l'unité|unité|fdp|fdpin|à donner|vendu|cada una|cada uno|c/u|vendido|per stuk|p.st|verkocht|sprzedane|za sztukę"
    "|za szt|prodáno|za kus|cad|cadauno|venduto|pro Stück|das Stück|per|offer|nur|price|Preis|prix|precio|prijs|cena|prezzo"
)

# How large an animal is, in words: no name by itself, though many names have one in them ("Große Wachsmotte")
SIZES = (
    "large|medium|small|big|groß|große|großer|großes|mittel|mittelgroß|klein|kleine|kleiner|kleines|grand|grande|grands"
    "|grandes|moyen|moyenne|petit|petite|petits|petites|groot|grote|middel|mediano|mediana|pequeño|pequeña|medio|media"
    "|piccolo|piccola|piccoli|piccole|médio|média|pequeno|pequena|duży|duża|średni|średnia|mały|mała|velký|velká|střední"
    "|malý|malá|stor|stora|mellan|liten|små|大|中|小"
)

#: A word for any of the animals says nothing of the group.
ANY_ANIMAL = "Arthropoda"
# the animal group a word names, and the taxon; singular and plural
ANIMALS = MappingProxyType(
    {
        "Theraphosidae": "tarantula|tarantulas|T|Ts|T's|birdeater|bird eater|Vogelspinne|Vogelspinnen|VS|mygale"
        "|mygales|tarántula|tarantola|migala|migale|vogelspin|ptasznik|sklípkan|caranguejeira|fågelspindel|タランチュラ"
        "|tarentule|tarantule|Baumvogelspinne|birdeaters|bird eaters|Baumvogelspinnen|tarántulas|migalas|ptaszniki"
        "|sklípkani|caranguejeiras|fågelspindlar",
        "Araneae": "spider|spiders|true spider|jumper|jumping spider|Spinne|Spinnen|araignée|araña|spin|pająk|pavouk"
        "|ragno|aranha|spindel|クモ|ハエトリグモ|Springspinne|skákavka|araignées|arañas|pająki|pavouci|ragni|aranhas|spindlar"
        "|Springspinnen|skákavky",
        "Scorpiones": "scorp|scorpion|scorpions|Skorpion|Skorpione|escorpión|alacrán|schorpioen|skorpion|štír"
        "|scorpione|escorpião|サソリ|escorpiones|alacranes|schorpioenen|skorpiony|skorpioner|štíři|scorpioni|escorpiões",
        "Mantodea": "mantis|mantises|mantid|Gottesanbeterin|mante|bidsprinkhaan|modliszka|kudlanka|mantide"
        "|louva-a-deus|カマキリ|mantids|Gottesanbeterinnen|mantes|bidsprinkhanen|modliszki|kudlanky|mantidi|bönsyrsa"
        "|bönsyrsor",
        "Blattodea": "roach|roaches|cockroach|Schabe|Schaben|blatte|cucaracha|kakkerlak|karaczan|šváb|blatta|barata"
        "|kackerlacka|ゴキブリ|cockroaches|blattes|cucarachas|kakkerlakken|karaczany|švábi|baratas|kackerlackor",
        "Isopoda": "iso|isos|isopod|isopods|pod|pods|Assel|Asseln|cloporte|cloportes|cochinilla|pissebed|prosionek"
        "|svinka|stínka|onisco|ダンゴムシ|woodlouse|pillbug|cochinillas|pissebedden|prosionki|svinky|stínky|onischi"
        "|woodlice|pillbugs",
        "Phasmatodea": "stick insect|stick insects|phasmid|phasmids|Gespenstschrecke|Stabschrecke|phasme|insecto palo"
        "|wandelende tak|patyczak|straszyk|strašilka|pakobylka|insetto stecco|ナナフシ|leaf insect|Gespenstschrecken"
        "|Stabschrecken|phasmes|insectos palo|wandelende takken|patyczaki|straszyki|strašilky|pakobylky|insetti stecco"
        "|leaf insects",
        "Gastropoda": "snail|snails|Schnecke|Schnecken|escargot|caracol|slak|ślimak|oblovka|chiocciola|caramujo|snäcka"
        "|カタツムリ|escargots|caracoles|slakken|ślimaki|oblovky|chiocciole|caramujos|snäckor",
        "Diplopoda": "millipede|millipedes|Tausendfüßer|iule|milpiés|miljoenpoot|krocionóg|mnohonožka|millepiedi|ヤスデ"
        "|iules|miljoenpoten|krocionogi|mnohonožky",
        "Chilopoda": "centipede|centipedes|pede|pedes|Hundertfüßer|scolopendre|ciempiés|duizendpoot|skolopendra"
        "|stonožka|ムカデ|wij|scolopendra|scolopendres|duizendpoten|skolopendry|stonožky|wije",
        "Coleoptera": "beetle|beetles|Käfer|scarabée|escarabajo|kever|chrząszcz|brouk|scarabeo|scarabées|escarabajos"
        "|kevers|chrząszcze|brouci|scarabei|coléoptères|besouro|besouros",
        "Thelyphonida": "whip scorpion|whip scorpions|whipscorpion|Geißelskorpion|whipscorpions|Geißelskorpione",
        "Amblypygi": "tailless whip scorpion|tailless whip scorpions|whip spider|whip spiders|Geißelspinne"
        "|Geißelspinnen",
        "Solifugae": "camel spider|sun spider|wind scorpion|Walzenspinne|camel spiders|sun spiders|wind scorpions"
        "|Walzenspinnen",
        ANY_ANIMAL: "bug|bugs|insect|insects|invert|inverts|invertebrate|Wirbellose|pet|bicho",
    }
)  # fmt: skip

# Words that make up common names (colours, parts of the body, looks, people and beasts) and never stand as an epithet:
# they keep ``Chaco golden knee`` and ``Salmon pink`` from being read as genus and epithet. Dictionary words; the choice
# is by the common names of kept animals (common practice, no source).
NAME_WORDS = (
    "red|blue|black|white|green|yellow|orange|purple|pink|brown|golden|gold|grey|gray|silver|ivory|violet|scarlet|crimson"
    "|rose|rosy|salmon|copper|bronze|cobalt|sapphire|emerald|ruby|amber|turquoise|cream|chocolate|blonde|blond|bloom|blush"
    "|rust|rusty|olive|cinnamon|coral|steel|steely|electric|neon|dark|light|bright|pale|mustard|pumpkin|fire|flame|ember"
    "|knee|kneed|knees|leg|legs|legged|foot|feet|footed|toe|toes|tip|rump|rumped|femur|fang|fanged|fangs|hair|haired|hairy"
    "|abdomen|back|backed|butt|head|headed|face|faced|mouth|tail|tailed|horn|horned|horns|arm|armed|wing|winged|eye|eyed"
    "|bird|eater|birdeating|tree|bark|rain|forest|desert|cave|ground|house|garden|sand|grass|leaf|flower|stick|stone"
    "|curly|curlyhair|fuzzy|velvet|velvety|smooth|spiny|thorny|stripe|striped|stripes|stripeleg|spot|spotted|spots|banded"
    "|band|ringed|ring|starburst|star|skeleton|skull|zebra|tiger|suntiger|lion|leopard|jaguar|ostrich|elephant|rhino"
    "|rhinoceros|goat|bull|crab|lobster|peacock|dragon|devil|ghost|spider|king|queen|emperor|giant|goliath|dwarf|pygmy|tiny"
    "|fancy|ornamental|ornate|common|false|true|beauty|beautiful|jewel|jewelled|jeweled|gem|diamond|pearl|marble|marbled"
    "|bumble|bee|bumblebee|wasp|hornet|wolf|fishing|huntsman|widow|recluse|trapdoor|funnel|web|webbed|weaver|orb|purse"
    "|parachute|chevron|patch|cross|shield|boxer|orchid|violin|praying|hissing|hisser|dubia|discoid|dairy|cow|powder|rubber"
    "|ducky|panda|shark|assassin|stag|flat|thick|thicktail|fat|fattailed|whip|vinegaroon|tailless|burrowing|jumping|bold"
    "|regal|royal|imperial|noble|sunburst|sun|moon|night|fall|winter|snow|ice|northern|southern|eastern|western|central"
    "|highland|lowland|mountain|coastal|island|african|american|asian|australian|european|indian|chinese|japanese|thai"
    "|vietnamese|malaysian|indonesian|philippine|mexican|brazilian|chilean|peruvian|colombian|bolivian|ecuadorian"
    "|venezuelan|honduran|nicaraguan|guatemalan|panamanian|cuban|haitian|costa|rican|trinidad|argentinian|paraguayan"
    "|uruguayan|texas|arizona|california|florida|usambara|togo|ghana|kenyan|tanzanian|ugandan|cameroon|nigerian|socotra"
    "|madagascan|madagascar|antilles|antillean|martinique|guyana|surinam|singapore|borneo|sumatran|javan|sri|lankan|ceylon"
    "|mysore|gooty|mombasa|usumbara|chaco|pampas|bahia|tucuman|pinktoe|redknee|birdeater|whiteknee|pinkfoot|rosehair|greenbottle"
    "|bottle|species|mex|braz|chil|venez|gold-|feather|featherleg|featherlegged|baboon|monster|mouse|chicken"
    "|potato|sausage|pill|roly|poly|water|sea|land|old|new|little|lesser|greater|great|large|small|big|long|short|broad|slender"
)
OTHER_NAME_WORDS = (
    "azules|negros|negras|blancos|blancas|verdes|amarillos|amarillas|rosados|rosadas|dorados|doradas|bleus|bleues|noirs|noires"
    "|blancs|blanches|verts|vertes|jaunes|roses|dorés|dorées|rossi|rosse|neri|nere|bianchi|bianche|verdi|gialli|gialle"
    "|blauen|roten|schwarzen|weißen|grünen|gelben|braunen|niebieskie|czerwone|czarne|białe|zielone|modré|červené|černé|bílé|"
    "rot|rote|roter|rotes|blau|blaue|blauer|schwarz|schwarze|weiß|weiße|grün|grüne|gelb|gelbe|orange|braun|braune|gold|goldene"
    "|goldknie|rotknie|rosa|knie|bein|beine|fuß|haar|haarige|kraushaar|riesen|riese|gemeine|gemeiner|gewöhnliche|mexikanische"
    "|chile|chilenische|brasilianische|indische|afrikanische|australische|asiatische|martinique|kobalt|tiger|zebra|kaiser"
    "|rouge|rouges|bleu|bleue|noir|noire|blanc|blanche|vert|verte|jaune|rose|dorée|genou|genoux|pattes|poils|géante|géant"
    "|frisée|saumonée|commune|rojo|roja|rojos|rojas|azul|negro|negra|blanco|blanca|verde|amarillo|amarilla|rosada|dorada"
    "|rodillas|patas|gigante|pelo|mexicana|chilena|brasileña|viuda|rosso|rossa|blu|nero|nera|bianco|bianca|giallo|gialla"
    "|ginocchia|zampe|messicana|cilena|vedova|rood|rode|blauw|blauwe|zwart|zwarte|wit|witte|groen|groene|geel|roodknie|knie"
    "|weduwe|czerwony|czerwona|czerwonokolanowy|białokolanowy|niebieski|czarny|czarna|biały|zielony|złoty|olbrzymi|goliat"
    "|chilijski|kędzierzawy|kobaltowy|wdowa|červený|červená|modrý|modrá|černý|černá|bílý|bílá|zelený|zlatý|největší"
    "|kadeřavý|obecná|obecný|vdova|röd|blå|svart|vit|grön|gul|preto|preta|branco|branca|vermelho|vermelha|salmão|viúva"
)

# Places that animals on tags come from: countries (ISO 3166 short names and everyday ones), parts of countries, islands;
# beside English as they stand on German, French, Spanish, Italian, Dutch, Polish and Czech tags, where letters differ.
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
    "|Algeria|Algerien|Algérie|Argelia|Angola|Bahamas|Croatia|Kroatien|Croatie|Hrvatska|Dalmatia|Seychelles|Seychellen"
    "|Lebanon|Libanon|Eritrea|Solomon Islands|Libya|Libyen|Turkmenistan|Siberia|Afghanistan|Cape Verde|Kapverden"
    "|Saudi Arabia|Saudi-Arabien|Mauritius|Djibouti|Dschibuti|Virgin Islands|Saint Lucia|Mongolia|Mongolei"
    "|Réunion|Bangladesh|Sierra Leone|Comoros|Komoren|Slovenia|Slowenien|Eswatini|Swaziland|Montserrat|Grenada|Serbia"
    "|Serbien|Albania|Albanien|United Arab Emirates|Kazakhstan|Kasachstan|Crimea|Saint Kitts and Nevis|Gambia"
    "|Guinea-Bissau|Burundi|New Caledonia|Neukaledonien|Bulgaria|Bulgarien|North Macedonia|Macedonia|Mazedonien"
    "|Bosnia and Herzegovina|Bosnia|Bosnien|Armenia|Armenien|Azerbaijan|Aserbaidschan|Uzbekistan|Usbekistan|Bhutan"
    "|Burkina Faso|Liberia|Tschad|Central African Republic|South Sudan|Lesotho|Barbados|Curaçao|Vanuatu|Hong Kong"
    "|Hongkong|Korea|South Korea|Südkorea|Corea|Corée"
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
