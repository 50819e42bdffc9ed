"""What each standing means, in the words of a keeper; the only table of such sentences."""

from __future__ import annotations

from types import MappingProxyType

from namekeeper.words.terms import Standing

#: One sentence a standing: what happened to the name on the label.
MEANING = MappingProxyType(
    {
        Standing.CURRENT: "The name is in force.",
        Standing.MOVED: "The same species, now in another genus or at another rank.",
        Standing.RESPELLED: "The same name, spelt otherwise.",
        Standing.MERGED: "Now counted as part of another species.",
        Standing.RENAMED: "Replaced by another name, since the old one was already taken.",
        Standing.DIVIDED: "Split since the label was written: it may be one of several species.",
        Standing.MISAPPLIED: "The trade has used this name for another species.",
        Standing.DOUBTFUL: "A name that cannot be tied to a species with certainty.",
        Standing.OPEN: "Named to the genus only, or under a trade form.",
        Standing.DISPUTED: "The sources you trust do not agree.",
        Standing.UNNAMED: "Only the seller's tag so far.",
        Standing.UNKNOWN: "A list that is complete for the group does not have this name.",
        Standing.UNASKED: "Nobody who could say no has been asked.",
    }
)

#: What the keeper does about it; a name in force is asked about only while the trade still uses it for another.
TO_DO = MappingProxyType(
    {
        Standing.CURRENT: "settle once which it is",
        Standing.MOVED: "take the new name",
        Standing.RESPELLED: "take the new spelling",
        Standing.MERGED: "take the new name or keep the line's name",
        Standing.RENAMED: "take the new name",
        Standing.DIVIDED: "choose",
        Standing.MISAPPLIED: "choose",
        Standing.DOUBTFUL: "keep, or choose",
        Standing.OPEN: "look at the offers",
        Standing.DISPUTED: "choose, or wait",
        Standing.UNNAMED: "choose a name",
        Standing.UNKNOWN: "check the spelling",
        Standing.UNASKED: "ask again with the services",
    }
)
