# ruff: noqa: E501 - tables of words: one meaning, one line
"""Words that make up common names (colours, parts of the body, looks, people and beasts) and never stand as an epithet.

They keep ``Chaco golden knee`` and ``Salmon pink`` from being read as genus and epithet. Dictionary words; the choice is
by the common names of kept animals (common practice, no source). Data only; folded like all tag words.
"""

from __future__ import annotations

ENGLISH = (
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
OTHERS = (
    "azules|negros|negras|blancos|blancas|verdes|amarillos|amarillas|rosados|rosadas|dorados|doradas|bleus|bleues|noirs|noires"
    "|blancs|blanches|verts|vertes|jaunes|roses|dorés|dorées|rossi|rosse|neri|nere|bianchi|bianche|verdi|gialli|gialle"
    "|blauen|roten|schwarzen|weißen|grünen|gelben|braunen|niebieskie|czerwone|czarne|białe|zielone|modré|červené|černé|bílé"
    "|rot|rote|roter|rotes|blau|blaue|blauer|schwarz|schwarze|weiß|weiße|grün|grüne|gelb|gelbe|orange|braun|braune|gold|goldene"
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
