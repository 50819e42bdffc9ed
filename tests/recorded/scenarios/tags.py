"""Tags in the style of real ones, written by hand; sellers, prices and animals are invented."""

TAGS = """\
Brachypelma hamorii 0.1
brachypelma hamorii sling £12
BRACHYPELMA HAMORII ADULT FEMALE £120
Brachypelma hamorii Tesmoingt, Cleton & Verdez, 1997
Brachypelma smithi 0.0.1
Brachypelma smithi (F. O. Pickard-Cambridge, 1897) female
B. smithi 2"
B.hamorii
b. hamorii sling
B hamorii 0.1
Mex red knee (B. smithi) 0.0.1 2cm
P. metallica / regalis? 0.1 5-6cm BL CB gooty £30
P. metallica
Poecilotheria metalica 1.1 pair
Poecilotheria sp. lowland
Poecilotheria regalis (0.1) subadult
Caribena versicolor 0.0.5 slings CB
Avicularia versicolor 1.0
Avicularia avicularia F1 slings
Avicularia diversipes
pinktoe 3cm
GBB
GBB 0.1 ad.
greenbottle blue juvie
OBT x3
Pterinochilus murinus "Usambara"
Pterinochilus murinus RCF ex chordatus
T. albopilosum curly hair 0.0.3
Brachypelma albopilosum Nicaragua
Tliltocatl albopilosus
Tliltocatl albopilosum
Brachypelma vagans 1.0
Tliltocatl vagnas
Haplopelma lividum 0.1 WC
Cyriopagopus lividus
Cobalt blue
Chilean rose
Grammostola rosea RCF
Grammostola porteri
Grammostola pulchripes ♀ 10cm DLS
G. pulchra sling ca. 1cm
Lasiodora parahybana 5x slings 1/2"
Salmon pink birdeater 2½"
Theraphosa blondi / stirmi
Theraphosa stirmi 1.1 pair
Goliath birdeater
Acanthoscurria geniculata L5 LS 3cm
Nhandu chromatus 0,1
Nhandu tripepii
Psalmopoeus irminia MM 3.5in
Psalmopoeus cambridgei - juv female - 2-3"
Phormingochilus sp. Sabah Red
Brachypelma cf. smithi
Pamphobeteus aff. nigricolor 0.0.1
Pamphobeteus nr. ultramarinus
Pamphobeteus sp. "machala"
Aphonopelma seemanni penultimate male
Aphonopelma iodium
Pandinus imperator scorpling i2
Emperor scorpion
Heterometrus spinifer
Hadogenes paucidens 1.2.0
Hymenopus coronatus L4 nymph
orchid mantis
Phyllocrania paradoxa ooth £10
Armadillidium maculatum 10 pcs $15
Dairy cow isopods x20
Porcellio laevis "Dairy Cow"
Extatosoma tiaratum eggs
Archispirostreptus gigas 15cm pair $60
Scolopendra subspinipes
Scolopendra dehaani 12cm
Achatina fulica baby
Phidippus regius i5 female
Lasiodora parahybana x Lasiodora klugi
not a Brachypelma hamorii
Vogelspinne Weibchen 5cm
Rotknie-Vogelspinne 0.1
Mygale à genoux rouges femelle
Exemplum ignotum
Quuxia neverheard 0.1
0.1 5cm £30
Theraphosidae sp.
spider
"""

SOME = """\
Brachypelma smithi 0.0.1
GBB 0.1 ad.

Tliltocatl vagnas
Brachypelma cf. smithi
Grammostola rosea RCF
0.1 5cm £30
"""
