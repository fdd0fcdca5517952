import { sourceText } from '../../src/diagnostics/index.js';
import { chord, key, type Analysis, type Segment } from '../../src/harmony/index.js';
import type { Action, ClaimEntry, Lesson, SayAction, Step } from '../../src/lesson/index.js';
import type { Verdict } from '../../src/claims/index.js';
import {
  fraction,
  readPitchClass,
  readScore,
  type NoteId,
  type PitchClass,
  type Score,
} from '../../src/score/index.js';
import { trimmedBank } from '../../src/sound/index.js';
import { buildTimeline, spokenTexts, type Speech } from '../../src/timeline/index.js';
import { captionsWebvtt } from '../../src/output/index.js';
import type { PlayerBundle, WalkthroughInput } from '../../src/output/index.js';

/** A short waltz of our own with a pickup, a triplet, a grace note and a tie into the last bar. */
export const practiceWaltz = `X:1
T:The Ferryman's Waltz
C:written for the tests
M:3/4
L:1/4
Q:1/4=80
%%score {R L}
V:R clef=treble
V:L clef=bass
K:Dm
[V:R] A | d2 e | f2 e | d2 ^c | d3 | g2 a | b2 a | (3g/f/e/ f e | d2 A |
[V:L] z | D, [F,A,] [F,A,] | D, [A,D] [A,D] | A,, [G,^C] [G,C] | D, [F,A,] [F,A,] | G,, [G,B,] [G,B,] | E,, [G,^C] [G,C] | A,, [A,D] [G,^C] | D, [F,A,] [F,A,] |
[V:R] d2 e | f2 g | a2 g | f3 | e2 d | {d}^c2 =B | A3- | A2 |]
[V:L] F, [A,C] [A,C] | F, [A,D] [A,D] | B,, [F,B,] [F,B,] | B,, [F,B,] [F,B,] | G,, [G,B,] [G,B,] | A,, [G,^C] [G,C] | [D,A,D]3- | [D,A,D]2 |]
`;

const source = sourceText('practice.yaml', 'the practice lesson');
const span = { source, start: 0, end: 1 };
const dMinor = key(tone('D'), 'minor');

function tone(name: string): PitchClass {
  const read = readPitchClass(name);
  if (read === undefined) throw new Error(`no tone ${name}`);
  return read;
}

function segment(
  bar: number,
  root: string,
  quality: Segment['chord']['quality'],
  roman: string,
  inversion = 0,
): Segment {
  const start = bar === 0 ? fraction(0) : fraction(1 + 3 * (bar - 1), 4);
  return {
    start,
    end: fraction(1 + 3 * bar, 4),
    chord: chord(tone(root), quality, inversion),
    key: dMinor,
    roman,
    function:
      roman.startsWith('V') || roman.startsWith('vii')
        ? 'dominant'
        : roman.startsWith('i') && !roman.startsWith('iv')
          ? 'tonic'
          : 'predominant',
    bass: chord(tone(root), quality, inversion).tones[inversion] ?? tone(root),
    chordTones: [],
    nonChordTones:
      bar === 2 ? [{ note: 14 as NoteId, kind: 'passing tone', accented: false, chromatic: false }] : [],
    unexplained: [],
    confidence: 1,
    rivals: [],
  };
}

/** Made by hand for the page's tests: what the engine would say is not in question here. */
function analysisOf(score: Score): Analysis {
  return {
    score,
    opens: 0,
    segments: [
      segment(0, 'D', 'minor', 'i'),
      segment(1, 'D', 'minor', 'i'),
      segment(2, 'D', 'minor', 'i'),
      segment(3, 'A', 'dominant seventh', 'V7'),
      segment(4, 'D', 'minor', 'i'),
      segment(5, 'G', 'minor', 'iv'),
      segment(6, 'C#', 'diminished', 'viio6', 1),
      segment(7, 'A', 'dominant seventh', 'V7'),
      segment(8, 'D', 'minor', 'i'),
      segment(9, 'F', 'major', 'III'),
      segment(10, 'D', 'minor', 'i6', 1),
      segment(11, 'Bb', 'major', 'VI'),
      segment(12, 'Bb', 'major', 'VI'),
      segment(13, 'G', 'minor', 'iv'),
      segment(14, 'A', 'dominant seventh', 'V7'),
      segment(15, 'D', 'minor', 'i'),
    ],
    keyAreas: [],
    cadences: [],
    pedals: [],
    sequences: [],
  };
}

const bars = (first: string, last: string) => ({ first, last, span });

function claim(path: string, text: string, step: number): ClaimEntry {
  return { path, text, span, offsets: [...text].map((_, index) => index), step };
}

function say(id: string, html: string, claims: readonly ClaimEntry[] = []): SayAction {
  const text = html
    .replace(/<\/p>\s*<p>/g, '\n\n')
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&amp;', '&');
  return {
    kind: 'say',
    id,
    markdown: html,
    text,
    html,
    claims: claims.map(one => ({ words: one.text, from: 0, to: 1, claim: one })),
    span,
  };
}

const play = (first: string, last: string, score?: string): Action => ({
  kind: 'play',
  bars: bars(first, last),
  as: 'written',
  tempo: 100,
  times: 1,
  under: false,
  ...(score === undefined ? {} : { score: { value: score, span } }),
  span,
});

const claims = {
  minor: claim('steps/0/script/1/say/0', 'bars 1-4 are in D minor', 0),
  dominant: claim('steps/0/script/1/say/1', 'bar 3 is V7', 0),
  loose: claim('steps/1/claims/0', 'bar 6 is viio6', 1),
  because: claim('steps/1/script/2/because', 'bar 6 has C#', 1),
  written: claim('steps/2/script/2/because', 'bar 14 is V7', 2),
};

const verdict = (word: Verdict['verdict'], reason: string, evidence: Verdict['evidence'] = []): Verdict => ({
  verdict: word,
  code: 'C0101',
  reason,
  evidence,
});

/** Texts of the lesson that the tests may replace by hostile ones. */
export interface Texts {
  readonly title: string;
  readonly step: string;
  readonly say: string;
  readonly question: string;
  readonly choice: string;
  readonly reason: string;
  readonly abc: string;
  readonly captions: string;
  /** Another version of the piece, which the last step then plays. */
  readonly version: string;
  /** A question of the last step that is answered in writing. */
  readonly written: string;
}

const plain: Texts = {
  title: 'How the ferry leaves the bank',
  step: 'Four bars at the bank',
  say: '<p>Four bars, and <span class="claim" data-claim="steps/0/script/1/say/0">all of them in D minor</span>.</p><p>Only the third leans away: it is <span class="claim" data-claim="steps/0/script/1/say/1"><strong>the dominant</strong> seventh</span>, with C sharp as the leading tone.</p>',
  question: 'Which note of bar 6 pulls back to D?',
  choice: 'C sharp',
  reason: 'A, C#, E and G sound above A in the bass',
  abc: practiceWaltz,
  captions: '',
  version: '',
  written: '',
};

const wordSeconds = 0.35;

function speechOf(text: string): Speech {
  const words = [...text.matchAll(/\S+/g)].map((match, index) => ({
    from: match.index,
    to: match.index + match[0].length,
    start: index * wordSeconds,
    end: (index + 1) * wordSeconds,
  }));
  return { seconds: words.length * wordSeconds, words };
}

/** A tone for every word, as 16-bit PCM in a WAV file; browsers unpack it like any other clip. */
function clipOf(text: string): Uint8Array {
  const rate = 16_000;
  const { seconds, words } = speechOf(text);
  const samples = new Int16Array(Math.ceil(seconds * rate));
  for (const [index, word] of words.entries()) {
    const pitch = 180 + 20 * (index % 4);
    for (let at = Math.round(word.start * rate); at < (word.end - 0.08) * rate; at++)
      samples[at] = 6000 * Math.sin((2 * Math.PI * pitch * at) / rate);
  }
  const header = Buffer.alloc(44);
  header.write('RIFF', 0);
  header.writeUInt32LE(36 + samples.byteLength, 4);
  header.write('WAVEfmt ', 8);
  header.writeUInt32LE(16, 16);
  header.writeUInt16LE(1, 20);
  header.writeUInt16LE(1, 22);
  header.writeUInt32LE(rate, 24);
  header.writeUInt32LE(rate * 2, 28);
  header.writeUInt16LE(2, 32);
  header.writeUInt16LE(16, 34);
  header.write('data', 36);
  header.writeUInt32LE(samples.byteLength, 40);
  return Buffer.concat([header, Buffer.from(samples.buffer)]);
}

/** A small lesson with everything that the page shows: words with claims, an example, a question, loose claims. */
export async function practiceLesson(
  player: PlayerBundle,
  changed: Partial<Texts> = {},
): Promise<WalkthroughInput> {
  const texts = { ...plain, ...changed };
  const score = readScore(sourceText('practice.abc', texts.abc)).value;
  const steps: readonly Step[] = [
    {
      title: texts.step,
      bars: bars('0', '4'),
      script: [play('0', '4'), say('1.1', texts.say, [claims.minor, claims.dominant])],
      show: ['chords', 'numerals', 'keys', 'non-chord tones'],
      span,
    },
    {
      title: 'Out on the water',
      bars: bars('5', '8'),
      script: [
        play('5', '8'),
        say(
          '2.1',
          '<p>Bar 6 has a surprise in it. Listen for the note that does not belong to the key signature.</p>',
        ),
        {
          kind: 'ask',
          id: '2.2',
          question: texts.question,
          choices: ['B flat', texts.choice, 'G'],
          answer: texts.choice,
          because: claims.because,
          span,
        },
        say('2.3', '<p>The leading tone, of course.</p>'),
      ],
      show: ['numerals', 'functions'],
      span,
    },
    {
      title: 'The other bank',
      bars: bars('9', '16'),
      script: [
        texts.version === '' ? play('9', '16') : play('1', '2', 'other.abc'),
        say('3.1', '<p>And so we land, on the chord that we left from.</p>'),
        ...(texts.written === ''
          ? []
          : [
              {
                kind: 'ask' as const,
                id: '3.2',
                question: texts.written,
                choices: [],
                answer: 'V7',
                because: claims.written,
                span,
              },
            ]),
      ],
      show: ['figures', 'numerals'],
      span,
    },
  ];
  const lesson: Lesson = {
    source,
    title: texts.title,
    author: 'Ada Fenwick',
    description: 'A short crossing, to hear how a dominant pulls.',
    score: { value: 'practice.abc', span },
    home: { value: dMinor, span },
    conventions: {
      'seventh-on-I': 'major',
      cadential: 'I64',
      'inverted-authentic': 'cadence',
      'half-on-V7': 'cadence',
      'cadence-names': 'US',
      'iii-and-vi': 'tonic',
    },
    narrator: { voice: 'built-in', pace: 150 },
    lexicon: {},
    steps,
    claims: Object.values(claims),
  };
  const version = readScore(sourceText('other.abc', texts.version)).value;
  const spoken = spokenTexts(lesson);
  const timeline = buildTimeline({
    lesson,
    score,
    versions: new Map([['other.abc', version]]),
    chordsIn: () => [],
    speech: new Map(spoken.map(({ id, text }) => [id, speechOf(text)])),
  }).value;
  const evidenceBar3 = score.notes
    .filter(note => note.bar === 3)
    .map((note, index) => ({
      role: index === 0 ? ('supports' as const) : ('set aside' as const),
      pitch: `${note.pitch.letter}${note.pitch.alter === 1 ? '#' : ''}${note.pitch.octave}`,
      voice: 'left hand',
      bar: '3',
      beat: '1',
      why: index === 0 ? 'root of the chord' : 'doubled',
      note: note.id,
    }));
  return {
    name: 'practice',
    lesson,
    scores: [
      { path: 'practice.abc', analysis: analysisOf(score) },
      ...(texts.version === ''
        ? []
        : [{ path: 'other.abc', analysis: { ...analysisOf(version), segments: [] } }]),
    ],
    claims: [
      {
        claim: claims.minor,
        verdict: verdict('holds', 'the leading tone C# and the tonic triad frame the phrase'),
      },
      { claim: claims.dominant, verdict: verdict('holds', texts.reason, evidenceBar3) },
      { claim: claims.loose, verdict: verdict('arguable', 'with A in mind it is V7 without its root') },
      { claim: claims.because, verdict: verdict('holds', 'C# sounds on beat 2') },
      ...(texts.written === ''
        ? []
        : [{ claim: claims.written, verdict: verdict('holds', 'A, C#, E and G sound') }]),
    ],
    timeline,
    clips: spoken.map(({ id, text }) => ({ say: id, file: clipOf(text), skipSeconds: 0 })),
    bank: await trimmedBank(timeline.events.filter(event => event.kind === 'note')),
    captions: texts.captions === '' ? captionsWebvtt(timeline) : texts.captions,
    player,
  };
}
