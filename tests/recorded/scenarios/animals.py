"""Small collections that several scenarios begin with: invented animals, names of real species."""

from __future__ import annotations

from types import MappingProxyType

from tests.recorded.scenario import Content

#: One name that moved twice, a tag only, a name that was divided.
FEW: MappingProxyType[str, Content] = MappingProxyType(
    {
        "A1": """\
tag: B. vagans 0.1
acquired: 2010
names:
- name: Brachypelma vagans  # as sold
  authorship: (Ausserer, 1875)
  since: 2010-05
  recorded: 2010-05-04
""",
        "A2": "tag: red thing\nacquired: 2005\nsex: 0.0.12\n",
        "A3": "tag: pinktoe\nnames: [{name: Avicularia avicularia, since: 2015, recorded: 2015}]\n",
        "A4": "tag: B. vagans\nacquired: 2011\n"
        "names:\n  - name: Brachypelma vagans\n    since: 2011\n    recorded: 2011\n",
    }
)

#: Qualifiers, trade forms, breeding lines, hybrids, names that no list has, odd dates, animals that left.
ODD: MappingProxyType[str, Content] = MappingProxyType(
    {
        "O-01": "tag: P. sp. sabah red\nnames:\n  - name: Phormingochilus\n    qualifier: sp.\n"
        "    trade_form: Sabah Red\n    since: 2019-03-09\n    recorded: 2019-03-09\n",
        "O-02": "tag: cf smithi\nnames:\n  - name: Brachypelma smithi\n    qualifier: cf.\n    since: 2020-06-01\n"
        "    recorded: 2020-06-01\n",
        "O-03": "tag: RCF\nnames:\n  - name: Pterinochilus murinus\n    authorship: Pocock, 1897\n"
        "    form: ex chordatus RCF\n    since: 2017-09-30\n    recorded: 2017-09-30\n"
        "caution: fast; never open alone\n",
        "O-04": "names:\n  - name: Ignotus exemplaris\n    since: 2020-01-01\n    recorded: 2020-01-01\n",
        "O-05": "names:\n  - name: Brachypelma smithi\n    since: 2005\n    recorded: 2005\n",
        "O-06": "names:\n  - name: Brachypelma smithi\n    since: 2019\n    recorded: 2019\n",
        "O-07": "acquired: 2012-04\nnames:\n  - name: Brachypelma albopilosum\n    authorship: Valerio, 1980\n"
        "    recorded: 2012-05-01\n",
        "O-08": "names:\n  - name: Haplopelma lividum\n    since: 2009\n    recorded: 2009\n",
        "O-09": "names:\n  - name: Lasiodora parahybana x klugi\n    since: 2016\n    recorded: 2016\n",
        "O-10": 'tag: "???"\n',
        "O-11": "tag: GBB 0.1\nleft: {date: 2021-06-01, how: sold}\n"
        "names:\n  - name: Chromatopelma cyaneopubescens\n    since: 2019\n    recorded: 2019\n",
        "O-12": "names:\n  - name: Tliltocatl vagnas\n    since: 2022\n    recorded: 2022\n",
        "O-13": "names:\n  - name: Grammostola rosea\n    since: 2003-02-28\n    recorded: 2003-03-01\n",
        "O-14": "names:\n  - name: Brachypelma\n    since: 2003\n    recorded: 2003\n",
        "O-15": "tag: Cyriopagopus schioedtei\nnames:\n  - name: Cyriopagopus schioedtei\n"
        "    authorship: Thorell, 1891\n    since: 2008\n    recorded: 2008\n",
    }
)

#: A name with a history: three entries, one of them from a paper.
STORY = """\
tag: "Mex red rump 0.1 4cm"
acquired: 2008-05-03
sex: 0.1.0
locality: Campeche
common: Mexican red rump
place: rack A 2
from: spring fair
names:
  - name: Eurypelma vagans
    authorship: Ausserer, 1875
    since: 2008-05-03
    recorded: 2014-05-04
    standing: as-labelled
  - name: Brachypelma vagans
    authorship: (Ausserer, 1875)
    since: 2014-05-03
    recorded: 2014-05-04
    standing: moved
  - name: Tliltocatl vagans
    authorship: (Ausserer, 1875)
    since: 2021-02-11
    recorded: 2021-02-11
    standing: moved
    according_to: Mendoza & Francke 2020
    source: starter 2026.1
    link: https://doi.org/10.1093/zoolinnean/zlz046
    decided_by: keeper
    note: the new label is on the box
"""
