import type { SpeechEvent } from './model.js';

/** Words of a caption that stay together, with their times and what ends with them. */
export interface CaptionUnit {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly endsClause: boolean;
  readonly endsSentence: boolean;
  readonly endsParagraph: boolean;
  readonly beforeConjunction: boolean;
  /** Its last word leads on to the next one: an article, a preposition, a conjunction, a pronoun, a note of a list. */
  readonly leadsOn: boolean;
}

const conjunction =
  /^(and|but|or|so|because|which|that|when|where|while|then|before|after|until|as|if|with|to|from|into|of|in)$/iu;
/** BBC Subtitle Guidelines, 3.2: article and noun, preposition and phrase, conjunction and clause, pronoun and verb are not split. */
const leadsOn =
  /^(an?|the|this|that|these|those|its?|my|his|her|our|your|their|i|he|she|we|they|one|two|three|four|five|six|same|each|every|no|and|but|or|so|of|to|in|on|at|by|for|with|from|into|over|under|as|if|when|where|which|is|are|has|have)$/iu;
const number = /^[(]?\d[\d.:–-]*[a-z]?\W*$/u;
const noteName = /^\W*[A-G][#♯b♭]?\W*$/u;
const accidental = /^(sharp|flat|natural|double)\W*$/u;
const mode = /^(major|minor|diminished|augmented|dominant|half-diminished)\W*$/u;
const chordWord =
  /^(chord|triad|second|third|fourth|fifth|sixth|seventh|ninth|scale|key|cadence|six-four|six-five)\W*$/iu;
const kindOfChord =
  /^(major|minor|diminished|augmented|dominant|half-diminished|perfect|authentic|half|deceptive|plagal|Neapolitan|Italian|French|German|cadential|leading|leading-tone|passing|neighbour|neighbor)$/iu;
const numeral = /^[#♯b♭]?([ivIV]+|N6|It6|Fr43|Ger65|[Cc]ad64)[°oø+\d/ivIV]*$/u;

/** Whether a line or caption must not end between two words: inside a bar reference, a numeral, a note name, a chord or a cadence. */
export function belongTogether(before: string, after: string): boolean {
  if (/^(bars?|measures?|mm?\.|bb?\.|beats?|op\.|no\.|steps?)$/iu.test(before) && number.test(after))
    return true;
  if (noteName.test(before) && /\w[#♯b♭]?$/u.test(before) && (accidental.test(after) || mode.test(after)))
    return true;
  if (accidental.test(before) && (mode.test(after) || accidental.test(after))) return true;
  if (kindOfChord.test(before) && (chordWord.test(after) || kindOfChord.test(after.replace(/\W+$/u, ''))))
    return true;
  if (numeral.test(before) && /^(in|of)$/u.test(after)) return true;
  return /^(in|of)$/u.test(before) && (noteName.test(after) || numeral.test(after.replace(/\W+$/u, '')));
}

/** Inside a list of notes: `A flat, G`. */
const isNoteList = (before: string, after: string): boolean =>
  /^([A-G][#♯b♭]?|sharp|flat|natural),$/u.test(before) && noteName.test(after);

/** Words of a speech in units that are not broken, timed by the spoken words they hold. */
export function captionUnits(speech: Pick<SpeechEvent, 'text' | 'words' | 'start'>): readonly CaptionUnit[] {
  const shown = [...speech.text.matchAll(/\S+/gu)].map(match => ({
    text: match[0],
    from: match.index,
    to: match.index + match[0].length,
  }));
  const units: CaptionUnit[] = [];
  let words: typeof shown = [];
  let [clock, nextWord] = [speech.start, 0];
  shown.forEach((word, index) => {
    words.push(word);
    const next = shown[index + 1];
    if (next !== undefined && belongTogether(word.text, next.text)) return;
    const first = words[0] ?? word;
    const spoken: SpeechEvent['words'][number][] = [];
    for (
      let heard = speech.words[nextWord];
      heard !== undefined && heard.from < word.to;
      heard = speech.words[nextWord]
    ) {
      if (heard.to > first.from) spoken.push(heard);
      nextWord += 1;
    }
    const start = spoken[0]?.start ?? clock;
    clock = Math.max(spoken.at(-1)?.end ?? start, start);
    const gap = next === undefined ? '' : speech.text.slice(word.to, next.from);
    units.push({
      text: words.map(({ text }) => text).join(' '),
      start,
      end: clock,
      endsClause: /[,;:–—-]["'”’)]*$/u.test(word.text),
      endsSentence: /[.!?…]["'”’)]*$/u.test(word.text) && !/^(m|mm|b|op|no|e\.g|i\.e)\.$/iu.test(word.text),
      endsParagraph: /\n\s*\n/u.test(gap) || next === undefined,
      leadsOn: leadsOn.test(word.text) || (next !== undefined && isNoteList(word.text, next.text)),
      beforeConjunction: next !== undefined && conjunction.test(next.text),
    });
    words = [];
  });
  return units;
}
