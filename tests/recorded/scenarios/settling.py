"""``namekeeper settle``: orders, the pass on a terminal, wrong orders, lists that disagree, a whole year's work."""

from __future__ import annotations

from tests.recorded.scenario import Put, Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW, ODD, STORY

_S = "settle animals --offline"
_VAGANS = "names:\n  - name: Brachypelma vagans\n    authorship: (Ausserer, 1875)\n    since: 2014\n"

SCENARIOS = (
    Scenario(
        "settle-orders",
        (
            *runs(
                _S,
                f"{_S} --json",
                f"{_S} --take-safe",
                f"{_S} --take-safe --json",
                f"{_S} --take 'A2=Brachypelma hamorii' --keep A1 --later A4 --note seen --json",
                f"{_S} --take 'A2=Brachypelma hamorii' --keep A1 --later A4 --note seen --write",
                "check animals --offline",
                f"{_S} --take-safe --json",
                f"{_S} --undo A1 --undo A2 --write --json",
                "history animals",
                "history animals A2 --json",
                f"{_S} --take-safe --write --on 2021-02-11",
                f"{_S} --take-safe --write --on 2021-02-11",
                f"{_S} --undo A4 --write",
                f"{_S} --undo A4 --write",
                "history animals A4 --json",
                "check animals --offline --json",
                "collection verify animals",
            ),
        ),
        collection("animals", FEW),
    ),
    Scenario(
        "settle-wrong-orders",
        (
            *runs(
                f"{_S} --take A1 --write",
                f"{_S} --take 'A1=X y' --take 'A1=X z' --write",
                f"{_S} --take 'A1=' --write",
                f"{_S} --take 'A1=not a name at all 12' --write",
                f"{_S} --take 'A1=Exemplum ignotum'",
                f"{_S} --take 'A1=Brachypelma vagans' --write",
                f"{_S} --take 'a1=Tliltocatl vagans'",
                f"{_S} --keep B7 --take-safe --write",
                f"{_S} --keep A1 --later A1 --write",
                f"{_S} --keep A1 --take 'A1=Tliltocatl vagans' --write",
                f"{_S} --undo A1 --write",
                f"{_S} --undo A2 --write",
                f"{_S} --on soon --take-safe --write",
                f"{_S} --on 1999 --take-safe --write",
                f"{_S} --on 2031-01-01 --take-safe --write",
                f"{_S} --services gbiff",
                "settle nowhere --offline",
                "settle animals/specimens/A1.yaml --offline --write",
            ),
        ),
        collection("animals", FEW),
    ),
    Scenario(
        "settle-on-a-terminal",
        (
            run(f"{_S} --write", terminal=True, stdin="wotq"),
            run(
                f"{_S} --write",
                terminal=True,
                stdin="kbnBrachypelma hamorii\ntnBrachypelma hamori\nxnBrachypelma hamori\n1q",
            ),
            run(f"{_S} --write", terminal=True, stdin="\x1b[Axn99\nsl", environ={"NO_COLOR": "1"}),
            run(f"{_S} --write", terminal=True, stdin=""),
            run(f"{_S}", terminal=True, stdin="t"),
            run("settle odd --offline --write", terminal=True, stdin="wslk1sn0\nssq", environ={"NO_COLOR": "1"}),
            run("settle odd --offline --write", terminal=True, stdin="ttttt", environ={"NO_COLOR": "1"}),
            run("settle odd --offline --json", terminal=True, stdin="t"),
            run("history odd"),
        ),
        collection("animals", FEW) | collection("odd", ODD),
    ),
    Scenario(
        "settle-sample",
        (
            *runs(
                "settle animals --offline",
                "settle animals --offline --take-safe --write --json",
                "settle animals --offline",
                "history animals HW-002 HW-013",
                "history animals --year 2026",
                "labels animals --status",
                "check animals --offline --since-last",
                "settle animals --offline --take 'HW-001=Brachypelma hamorii' --note 'looked at the carapace' --write",
                "history animals HW-001 --json",
                "settle animals --offline --undo HW-001 --write",
                "check animals --offline --since-last",
            ),
        ),
        sample="animals",
    ),
    Scenario(
        "settle-with-a-list-that-doubts",
        (
            *runs(
                "check animals --offline --json",
                "lists add doubts.csv --as doubts --edition 2024 --licence CC0-1.0",
                "check animals --offline --json",
                "settle animals --offline --take-safe",
                "settle animals --offline --take-safe --write --json",
                "history animals --json",
                "check above --offline --json",
                "settle above --offline --take-safe --write",
                "history above --json",
                "lists add other.csv --as other --edition 2025",
                "check third --offline",
                "check third --offline --json",
                "settle third --offline --take-safe --write --json",
            ),
        ),
        collection("animals", {"V1": _VAGANS})
        | collection("above", {"V1": _VAGANS}, "trust_order: [doubts, starter]\n")
        | collection("third", {"V1": _VAGANS, "S1": STORY}, "trust_order: [other, starter]\n")
        | {
            "doubts.csv": 'name,authorship,status\nTliltocatl vagans,"(Ausserer, 1875)",doubtful\n',
            "other.csv": "id,name,authorship,status,accepted_id\n"
            '1,Brachypelma vagans,"(Ausserer, 1875)",accepted,\n2,Tliltocatl vagans,"(Ausserer, 1875)",synonym,1\n',
        },
    ),
    Scenario(
        "settle-odd-names",
        (
            *runs(
                "settle odd --offline",
                "settle odd --offline --take-safe --write",
                "settle odd --offline --take 'O-08=Cyriopagopus lividus' --take 'O-12=Tliltocatl vagans' --write",
                "settle odd --offline --keep O-05 --later O-06 --keep O-10 --write --note 'as sold'",
                "settle odd --offline --take 'O-03=Pterinochilus chordatus' --write",
                "settle odd --offline --take 'O-04=Brachypelma hamorii' --take 'O-02=Brachypelma hamorii' --write",
                "check odd --offline",
                "settle odd --offline --undo O-05 --undo O-08 --undo O-10 --write",
                "history odd",
                "history odd --json O-03 O-08 O-12",
            ),
            Put("odd/specimens/O-13.yaml", "names: [{name: Grammostola rosea, since: 2003, recorded: 2003}]  # flow\n"),
            Put("odd/specimens/O-14.yaml", "names: &a\n  - name: Haplopelma lividum\n    since: 2003\n"),
            run("settle odd --offline --take 'O-13=Grammostola porteri' --take 'O-14=Cyriopagopus lividus' --write"),
            run("settle odd --take-safe --write --services gbif", service="accepting"),
        ),
        collection("odd", ODD),
    ),
)
