"use strict";
/* The look-up of a pocket file. Everything it knows was made by the program that wrote the file: this script cuts a tag
   into known words, never says more than the weakest of them, and never "one" where a word is left that it cannot place. */

const pocket = (() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const LONGEST = 8; // words of a known name
  const MOST = 12; // candidates shown
  const COMMON = "E";
  const FORMER = "B";
  const SCIENTIFIC = "ABC"; // in force, former, in other letters

  // --- text ---------------------------------------------------------------------------------------------------------
  const { signs, letters } = data.reader;
  const marks = new Set(data.reader.marks);
  const TOKEN = new RegExp(`\\p{L}+(?:[${data.reader.inner}]+\\p{L}*)*(?:'\\p{L}+)*|[0-9]+|[♀♂⚥]+`, "gu");
  const TAKEN = "\u001f";
  const lines = (text) => (text ? text.split("\n") : []);
  const translated = (text) => Array.from(text, (letter) => letters[letter] ?? letter).join("");

  function plain(tag) {
    if (/[&<]/.test(tag)) tag = new DOMParser().parseFromString(tag.replace(/<\/?[a-zA-Z][^<>]{0,60}>/g, " "), "text/html").body.textContent;
    const composed = tag.replace(/[\uff01-\uff5e]+/g, (wide) => wide.normalize("NFKC")).normalize("NFC");
    return Array.from(composed, (letter) => signs[letter] ?? letter).join("").replace(/[\p{Cf}]/gu, "").replace(/\p{C}/gu, " ");
  }

  function fold(word) {
    const bare = translated(word.toLowerCase()).normalize("NFKD").toLowerCase();
    return translated(bare.replace(/\p{M}/gu, (mark) => (marks.has(mark) ? mark : ""))).replace(/'/g, "");
  }

  function tokens(text, open) {
    const found = [];
    for (const match of text.matchAll(TOKEN)) {
      const end = match.index + match[0].length;
      found.push({ text: match[0], key: fold(match[0]), start: match.index, end, taken: open[match.index] === TAKEN });
    }
    return found;
  }

  // --- what the file knows ------------------------------------------------------------------------------------------
  const known = new Map();
  let before = "";
  for (const line of lines(data.words)) {
    // A digit of base 36 says how many letters the word has in common with the one before it.
    const [word, answer] = line.split("\t");
    before = before.slice(0, parseInt(word[0], 36)) + word.slice(1);
    known.set(before, answer);
  }
  const heard = new Set(lines(data.reader.heard));
  const doubts = new Set(lines(data.reader.doubts));
  const weighed = new Set(lines(data.reader.weighed));
  const traits = new Set(lines(data.reader.traits));
  const capitals = new Set(data.reader.capitals.split(" "));
  const patterns = data.reader.patterns.map((pattern) => new RegExp(pattern, "gu"));
  const doubting = data.reader.doubting.map((pattern) => new RegExp(pattern, "iu"));
  const taxa = data.taxa.map(([name, authorship, rank, area, above, cautions]) => ({
    name, authorship, rank, area: data.texts[area], above: data.texts[above].split(";"),
    cautions: cautions.map((text) => data.texts[text]),
  }));

  function parsed(answer) {
    const candidates = answer.length < 2 ? [] : answer.slice(1).split(",").map((part) => {
      const [first, ...notes] = part.split(".");
      return { taxon: parseInt(first.slice(0, -1), 36), how: first.slice(-1), notes: notes.map((note) => data.texts[parseInt(note, 36)]) };
    });
    return { answer: answer[0], candidates };
  }

  // --- reading a tag ------------------------------------------------------------------------------------------------
  function sideBySide(text, one, other) {
    const gap = text.slice(one.end, other.start);
    return gap.length <= 3 && /^[ \-'.&]*$/.test(gap);
  }

  function runs(words, at, text) {
    let end = at + 1;
    while (end < words.length && end < at + LONGEST && !words[end].use && sideBySide(text, words[end - 1], words[end])) end += 1;
    return end;
  }

  function claim(words, text, fewest, find) {
    for (let at = 0; at < words.length; at += 1) {
      if (words[at].use) continue;
      for (let end = runs(words, at, text); end >= at + fewest; end -= 1) {
        const part = words.slice(at, end);
        const use = find(part.map((word) => word.key).join(" "), part);
        if (use) {
          part.forEach((word) => { word.use = use; });
          break;
        }
      }
    }
  }

  function phrase(key, part) {
    if (part.length === 1 && capitals.has(part[0].text)) return { kind: "heard", trait: true };
    if (doubts.has(key)) return { kind: "doubt", key };
    if (heard.has(key)) return { kind: "heard", trait: traits.has(key) };
    return weighed.has(key) ? { kind: "weighed", key } : null;
  }

  function read(tag) {
    const text = plain(tag);
    let open = text;
    for (const pattern of patterns) open = open.replace(pattern, (match) => TAKEN.repeat(match.length));
    const words = tokens(text, open);
    const name = (key) => known.has(key) && { kind: "name", key };
    claim(words, text, 2, (key, part) => part.some((word) => !word.taken) && name(key));
    words.filter((word) => word.taken && !word.use).forEach((word) => { word.use = { kind: "heard", trait: true }; });
    claim(words, text, 1, (key, part) => (part.length > 1 || !known.has(key) || !weighed.has(key)) && phrase(key, part));
    claim(words, text, 1, (key, part) => (part.length === 1 && name(key)) || phrase(key, part));
    const left = words.filter((word) => !word.use && !/^[0-9]+$/.test(word.key));
    return { text, words, left, doubted: doubtedBySigns(open, words) || words.some((word, at) => doubtsName(words, at)) };
  }

  function doubtedBySigns(open, words) {
    if (doubting.some((pattern) => pattern.test(open))) return true;
    // A question mark behind a sex, or a stroke between two, says nothing of the name.
    return [...open.matchAll(/[?|\\/×"]/g)].some(({ index: at }) => {
      const [before, behind] = [words.findLast((word) => word.end <= at), words.find((word) => word.start > at)];
      const trait = (word) => word?.use?.trait;
      return !(trait(before) && (open[at] === "?" || trait(behind)));
    });
  }

  function doubtsName(words, at) {
    // "maybe female", "not sexed": what is doubted is the next word.
    const use = words[at].use;
    if (use?.kind !== "doubt") return false;
    const behind = words.slice(at).find((word) => word.use !== use);
    return !behind?.use?.trait;
  }

  // --- from words to an answer --------------------------------------------------------------------------------------
  const species = (found) => found.candidates.filter(isSpecies);
  const isSpecies = (one) => ["", "subspecies", "variety", "form"].includes(taxa[one.taxon].rank);

  function merged(all) {
    const found = new Map();
    for (const one of all.flatMap((part) => part.candidates)) if (!found.has(one.taxon)) found.set(one.taxon, one);
    return [...found.values()];
  }

  function ordered(candidates, speciesFirst) {
    const rank = (one) => `${speciesFirst && !isSpecies(one) ? 1 : 0}${one.how}${taxa[one.taxon].name}`;
    return [...candidates].sort((one, other) => (rank(one) < rank(other) ? -1 : 1));
  }

  function placed(words, taxon) {
    // Words that say nothing against an animal: its author, its country, the word for its group.
    const own = new Set(`${taxon.authorship} ${taxon.area}`.match(/\p{L}+/gu)?.map(fold) ?? []);
    return words.every(({ key, use }) => (use?.kind === "weighed" && fits(use.key, taxon)) || (own.has(key) && key.length > 2));
  }

  function fits(key, taxon) {
    const group = data.reader.groups[key];
    return group !== undefined && taxon.above.includes(group);
  }

  function combined(reading) {
    const uses = new Set(reading.words.map((word) => word.use).filter((use) => use?.kind === "name"));
    const every = [...uses].map((use) => ({ ...parsed(known.get(use.key)), use })).filter((one) => one.candidates.length);
    const found = withoutOtherAnimals(every);
    if (!found.length) return null;
    if (found.length === 1) return { ...found[0], scientific: isScientific(found[0]) ? found[0].use : undefined, keys: [found[0].use.key] };
    const firm = found.filter((one) => "os".includes(one.answer) && species(one).length);
    const all = merged(firm.length ? firm : found);
    if (!firm.length) return { answer: "g", candidates: ordered(all, true) };
    const behind = firm.find(isScientific);
    const guessed = (one) => one.answer === "g" && !(behind && isRecalled(one));
    const left = found.filter((one) => !guessed(one)).reduce(agreeing, species(firm[0]).map((one) => one.taxon));
    const wide = found.some((one) => species(one).length && !one.candidates.every(isSpecies)); // a species and a whole group
    const group = found.some((one) => !(one.use.key in data.reader.groups) && !species(one).length && one.candidates[0].how === COMMON);
    const named = (one) => one.use.key[1] === " " || (one.use.key.includes(" ") && SCIENTIFIC.includes(one.candidates[0].how)); // "b smithi", too
    const open = found.some((one) => one.answer === "s" && named(one)); // the name itself
    const sure = left.length === 1 && !open && !wide && !group && firm.some((one) => one.answer === "o") && !found.some(guessed);
    if (!sure) return { answer: "s", candidates: ordered(left.length && !open ? all.filter((one) => left.includes(one.taxon)) : merged(found)) };
    return { answer: "o", candidates: all.filter((one) => one.taxon === left[0]), scientific: behind?.use, keys: found.map((one) => one.use.key) };
  }

  function agreeing(left, one) {
    // What is left of the species once another name is heard, which may be that of a genus or a group.
    const mine = one.candidates.map((candidate) => candidate.taxon);
    const wide = species(one).length ? [] : one.candidates; // a name that stands for a species, too, means that one
    const groups = new Set(wide.map((candidate) => taxa[candidate.taxon].name));
    return left.filter((taxon) => mine.includes(taxon) || groups.has(taxa[taxon].name.split(" ")[0]) || taxa[taxon].above.some((above) => groups.has(above)));
  }

  function isRecalled(one) {
    // A common name from memory: no firm ground by itself, and nothing against a scientific name beside it.
    return one.candidates.every((candidate) => candidate.how === COMMON && isSpecies(candidate));
  }

  function isScientific(one) {
    return one.answer === "o" && SCIENTIFIC.includes(one.candidates[0].how);
  }

  function withoutOtherAnimals(found) {
    // A common name that means an animal of another family than a firm scientific name beside it is left out.
    const family = (one) => taxa[one.taxon].above.find((above) => above.endsWith("idae"));
    const firm = found.filter(isScientific).flatMap(species).map(family);
    if (!firm.length || firm.includes(undefined)) return found;
    return found.filter((one) => {
      const families = species(one).map(family);
      const group = one.candidates.every((candidate) => !isSpecies(candidate) && taxa[candidate.taxon].rank !== "genus");
      if (group) return false; // the word for a group adds nothing beside a name
      const common = one.candidates.every((candidate) => candidate.how === COMMON);
      return !common || one.use.key[1] === " " || holdsGroup(one.use.key) || !families.length || families.some((each) => each === undefined || firm.includes(each));
    });
  }

  function weakened(found, reading) {
    if (found.answer === "s" && found.keys && reading.doubted) return { ...found, answer: "g" };
    if (found.answer !== "o") return found;
    const taxon = taxa[found.candidates[0].taxon];
    const weighed = reading.words.filter((word) => word.use?.kind === "weighed");
    const strange = reading.left;
    const crossed = reading.words.some((word) => word.key === "x" && !word.taken);
    // Beside a firm scientific name a strange word says nothing, unless it may be the third word of that name.
    const parted = found.scientific && found.keys.length > 1 && strange.length;
    const written = found.scientific && reading.words.find((word) => word.use === found.scientific).text;
    const beside = /^\p{Lu}/u.test(written ?? "") ? thirdWord(found.scientific, reading) : [...strange, ...weighed];
    const groups = reading.words.filter((word) => word.use?.key in data.reader.groups);
    const names = found.keys.filter((key) => !(key in data.reader.groups));
    const twice = !found.scientific && groups.length && names.some((key) => holdsGroup(key) || !key.includes(" "));
    const beasts = reading.words.filter((word) => word.use?.key && word.use !== found.scientific).flatMap((word) => groupsIn(word.use.key));
    const other = beasts.some((group) => data.reader.groups[group] !== "Arthropoda" && !fits(group, taxon));
    if (other) return { ...found, answer: "g", otherAnimal: true };
    return reading.doubted || crossed || twice || parted || !placed(beside, taxon) ? { ...found, answer: "g" } : found;
  }

  function thirdWord(use, reading) {
    const at = reading.words.findLastIndex((word) => word.use === use) + 1;
    const word = reading.words[at];
    const gap = word && reading.text.slice(reading.words[at - 1].end, word.start);
    if (!word || gap !== " " || !/^[a-z]+$/.test(word.text)) return [];
    const epithet = known.has(`${use.key.split(" ")[0]} ${word.key}`); // of another species of the genus, whatever else it says
    return epithet || ["name", undefined].includes(word.use?.kind) ? [word] : [];
  }

  function groupsIn(key) {
    const parts = key.split(" ");
    const runs = parts.flatMap((_, at) => [1, 2, 3].map((many) => parts.slice(at, at + many).join(" ")));
    return runs.filter((run) => run in data.reader.groups);
  }

  function holdsGroup(key) {
    return groupsIn(key).length > 0;
  }

  function answer(tag) {
    const reading = read(tag);
    const found = combined(reading);
    const unread = reading.left.map((word) => word.text);
    if (found && !(found.answer === "e" && unread.length)) return { ...weakened(found, reading), unread };
    if (found) return { answer: "g", candidates: [...near(reading), ...found.candidates].slice(0, MOST), unread };
    const bare = reading.words.filter((word) => known.has(word.key)).map((word) => parsed(known.get(word.key)));
    return { answer: "g", candidates: merged([...bare, { candidates: near(reading) }]).slice(0, MOST), unread };
  }

  // --- near spellings -----------------------------------------------------------------------------------------------
  let index = null;

  function indexed() {
    if (index) return index;
    const keysOf = new Map(); // word: the known keys that hold it
    const joined = new Map(); // letters without blanks: key
    const halves = new Map(); // a half word of that length, or its first letter: words
    const push = (map, key, value) => {
      const held = map.get(key);
      if (held) held.push(value);
      else map.set(key, [value]);
    };
    for (const key of known.keys()) {
      const parts = key.split(" ");
      for (const part of parts) if (part.length > 1) push(keysOf, part, key);
      if (parts.length > 1) joined.set(parts.join(""), key);
    }
    for (const word of keysOf.keys()) for (const half of halvesOf(word, word.length)) push(halves, half, word);
    const lettersOfWord = new Map([...keysOf.keys()].map((word) => [word, lettersOf(word)]));
    index = { keysOf, joined, halves, lettersOfWord, sorted: [...known.keys()] };
    return index;
  }

  function halvesOf(word, length) {
    const cut = Math.floor(length / 2);
    const last = word.length - (length - cut);
    return [`${length}<${word.slice(0, Math.min(cut, 3))}`, `${length}>${word.slice(Math.max(last, 0))}`, `${length}^${word[0]}`];
  }

  const ROWS = [new Uint8Array(64), new Uint8Array(64), new Uint8Array(64)];

  function distance(one, other, most) {
    // Optimal string alignment: insert, drop, change, swap of neighbours.
    if (Math.abs(one.length - other.length) > most || other.length > 62) return most + 1;
    let [before, last, row] = ROWS;
    for (let j = 0; j <= other.length; j += 1) last[j] = j;
    for (let i = 1; i <= one.length; i += 1) {
      row[0] = i;
      let least = i;
      for (let j = 1; j <= other.length; j += 1) {
        const same = one[i - 1] === other[j - 1];
        let edits = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1));
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) edits = Math.min(edits, before[j - 2] + 1);
        row[j] = edits;
        if (edits < least) least = edits;
      }
      if (least > most) return most + 1;
      [before, last, row] = [last, row, before];
    }
    return last[other.length];
  }

  function lettersOf(word) {
    // One bit a letter: an edit changes two at most, so words that differ in more are never compared.
    let bits = 0;
    for (let at = 0; at < word.length; at += 1) bits |= 1 << (word.charCodeAt(at) % 31);
    return bits;
  }

  function differing(one, other) {
    let bits = one ^ other, count = 0;
    for (; bits; bits &= bits - 1) count += 1;
    return count;
  }

  function nearWords(word) {
    const { keysOf, halves, lettersOfWord } = indexed();
    const most = word.length < 4 ? 1 : word.length < 8 ? 2 : 3;
    const found = new Map(keysOf.has(word) ? [[word, 0]] : []);
    const own = lettersOf(word);
    for (let length = word.length - most; length <= word.length + most; length += 1) {
      for (const half of halvesOf(word, length)) {
        for (const other of halves.get(half) ?? []) {
          if (found.has(other) || differing(own, lettersOfWord.get(other)) > 2 * most) continue;
          const edits = distance(word, other, most);
          if (edits <= most) found.set(other, edits);
        }
      }
    }
    return found;
  }

  function clipped(words) {
    // "P met": the start of a genus and of its second word
    for (let at = 0; at + 1 < words.length; at += 1) {
      const [genus, rest] = [words[at].key, words[at + 1].key];
      if (rest.length < 3) continue;
      const found = indexed().sorted.filter((key) => key.startsWith(genus) && key.includes(` ${rest}`) && key.split(" ").length === 2);
      if (found.length) return found.slice(0, MOST);
    }
    return [];
  }

  function near(reading) {
    const words = reading.words.filter((word) => /\p{L}/u.test(word.key) && word.use?.kind !== "heard" && word.use?.kind !== "doubt");
    const { keysOf, joined } = indexed();
    const points = new Map();
    const together = joined.get(words.map((word) => word.key).join(""));
    if (together) points.set(together, words.length + 1);
    const parts = words.map((word) => word.key);
    const pairs = parts.slice(1).map((key, at) => parts[at] + key); // a blank too many
    for (const part of [...parts, ...pairs]) {
      const best = new Map();
      for (const [other, edits] of nearWords(part)) {
        for (const key of keysOf.get(other)) best.set(key, Math.max(best.get(key) ?? 0, 1 - edits / (part.length + 1)));
      }
      for (const [key, score] of best) points.set(key, (points.get(key) ?? 0) + score);
    }
    split(words, points);
    const ranked = [...points].map(([key, score]) => [key, score / Math.max(words.length, key.split(" ").length)]);
    ranked.sort((one, other) => other[1] - one[1] || (one[0] < other[0] ? -1 : 1));
    const keys = [...clipped(words), ...ranked.slice(0, 40).map(([key]) => key)];
    const found = merged(keys.map((key) => parsed(known.get(key))));
    return found.slice(0, MOST).map((one) => ({ ...one, how: "I" }));
  }

  function split(words, points) {
    // A blank was lost: both parts of a long word are words of one name, or the second is spelt nearly so.
    const { keysOf } = indexed();
    for (const { key: word } of words.filter((one) => one.key.length > 6)) {
      for (let cut = 3; cut < word.length - 2; cut += 1) {
        const [start, rest] = [word.slice(0, cut), word.slice(cut)];
        for (const key of keysOf.get(start) ?? []) {
          const whole = key.split(" ").includes(rest);
          if (whole || (key.startsWith(`${start} `) && rest.length > 3 && distance(rest, key.slice(cut + 1), 2) <= 2)) points.set(key, (points.get(key) ?? 0) + 1.5);
        }
      }
    }
  }

  // --- own animals --------------------------------------------------------------------------------------------------
  const animals = data.animals.map(([id, name, former, more]) => ({ id, name, former, more: more ?? {}, keys: [name, ...former].map(nameKey) }));

  function nameKey(name) {
    return [...plain(name).matchAll(TOKEN)].map((match) => fold(match[0])).join(" ");
  }

  function owned(text, candidates) {
    const wanted = text.trim().toLowerCase();
    const names = new Set(candidates.map((one) => nameKey(taxa[one.taxon].name)));
    const typed = nameKey(text);
    return animals.filter((animal) => animal.id.toLowerCase() === wanted || animal.keys.some((key) => key && (names.has(key) || key === typed)));
  }

  let formerNames = null;

  function former(taxon) {
    return gathered().get(taxon) ?? [];
  }

  function gathered() {
    // Former names are the known words that lead to an animal as such; found once for all.
    if (formerNames) return formerNames;
    formerNames = new Map();
    for (const [key, answer] of known) {
      if (!answer.includes(FORMER) || !key.includes(" ") || key[1] === " ") continue;
      for (const one of parsed(answer).candidates) {
        if (one.how !== FORMER) continue;
        if (!formerNames.has(one.taxon)) formerNames.set(one.taxon, []);
        formerNames.get(one.taxon).push(key[0].toUpperCase() + key.slice(1));
      }
    }
    return formerNames;
  }

  function ready() {
    indexed();
    gathered();
  }

  return { data, taxa, read, answer, owned, former, key: nameKey, ready };
})();

/* What is seen: one field, the answer below it. */
(() => {
  const field = document.getElementById("tag");
  const answer = document.getElementById("answer");
  const list = document.getElementById("candidates");
  const mine = document.getElementById("mine");
  const said = pocket.data.answers;
  const how = pocket.data.how;
  const NOT_HERE = "Not in this file; that proves nothing.";

  function put(parent, tag, text, className) {
    const made = document.createElement(tag);
    if (text) made.textContent = text;
    if (className) made.className = className;
    parent.append(made);
    return made;
  }

  function sentence(text) {
    return text && `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? "" : "."}`;
  }

  function name(parent, text, authorship, rank) {
    const line = put(parent, "p", "", "name");
    put(line, ["", "genus", "subspecies", "variety", "form"].includes(rank) ? "i" : "span", text);
    if (authorship) put(line, "small", ` ${authorship}`);
    return line;
  }

  function candidate(one, typed) {
    const taxon = pocket.taxa[one.taxon];
    const item = put(list, "li");
    name(item, taxon.name, taxon.authorship, taxon.rank);
    put(item, "p", sentence([how[one.how], taxon.rank, taxon.area && `from ${taxon.area}`].filter(Boolean).join("; ")), "soft");
    for (const note of one.notes) put(item, "p", sentence(note), "note");
    const animals = pocket.owned(typed, [one]);
    if (animals.length) put(item, "p", `You have it: ${animals.map((animal) => animal.id).join(", ")}`, "own");
    const former = taxon.rank === "" ? pocket.former(one.taxon) : [];
    if (former.length || taxon.cautions.length) {
      const more = put(item, "details");
      put(more, "summary", [former.length && "former names", taxon.cautions.length && "cautions"].filter(Boolean).join(" and "));
      if (former.length) put(put(more, "p", "Was: "), "i", former.join(", "));
      for (const caution of taxon.cautions) put(more, "p", sentence(caution));
      if (taxon.cautions.length) put(more, "p", data.noAdvice, "soft");
    }
  }

  function animal(one) {
    const item = put(mine, "li");
    put(item, "b", one.id);
    if (one.name) put(put(item, "span", " "), "i", one.name);
    else put(item, "span", " no name yet");
    if (one.former.length) put(put(item, "p", "Was: ", "soft"), "i", one.former.join(", "));
    for (const [fact, text] of Object.entries(one.more)) put(item, "p", `${fact}: ${text}`, "soft");
  }

  function headline(found) {
    // Of a guess that rests on a known name: what is told of all candidates alike.
    const shared = (note) => found.candidates.every((one) => one.notes.includes(note));
    if (found.otherAnimal) return pocket.data.otherAnimal;
    const reason = found.answer === "g" && Object.entries(pocket.data.guesses).find(([note]) => shared(note));
    return reason ? reason[1] : said[found.answer];
  }

  function show() {
    const typed = field.value.slice(0, 300);
    list.replaceChildren();
    mine.replaceChildren();
    answer.textContent = "";
    if (!typed.trim()) return;
    const found = pocket.answer(typed);
    const owned = pocket.owned(typed, found.candidates.slice(0, 3));
    const exact = owned.filter((one) => one.id.toLowerCase() === typed.trim().toLowerCase());
    if (!exact.length) {
      const text = found.candidates.length ? sentence(headline(found)) : NOT_HERE;
      answer.textContent = found.unread.length && found.candidates.length ? `${text} Not understood: ${found.unread.join(", ")}.` : text;
      found.candidates.forEach((one) => candidate(one, typed));
    }
    (exact.length ? exact : owned).forEach(animal);
    document.getElementById("mine-heading").hidden = !mine.children.length;
  }

  (window.requestIdleCallback ?? window.setTimeout)(pocket.ready);
  let waiting = 0;
  field.addEventListener("input", () => {
    window.clearTimeout(waiting);
    waiting = window.setTimeout(show, 120);
  });
  document.getElementById("ask").addEventListener("submit", (event) => {
    event.preventDefault();
    window.clearTimeout(waiting);
    show();
    field.blur();
  });
  document.getElementById("clear").addEventListener("click", () => {
    field.value = "";
    show();
    field.focus();
  });
})();
