import { captionUnits } from './caption-units.js';
import type { CaptionUnit } from './caption-units.js';
import { passageText } from './passage-text.js';
import type { PassageEvent, SpeechEvent, Timeline } from './model.js';

/** One caption: lines of plain text, shown from start to end (seconds). */
export interface CaptionCue {
  readonly start: number;
  readonly end: number;
  readonly lines: readonly string[];
  /** Id of the speech that it shows; absent for the description of a sound. */
  readonly say?: string;
}

/**
 * How captions are cut. The defaults and where they come from: two lines (BBC Subtitle Guidelines, 3.3); 42 characters a line and 7 s at
 * most (a published timed-text style guide for streaming, quoted second-hand); 0.3 s a word at least, so 0.8 s for any caption (BBC, 4.1);
 * a gap is at least 1 s, else the caption stays until the next one (BBC, 4.5).
 */
export interface CaptionStyle {
  readonly lineLength: number;
  readonly lines: number;
  readonly longestSeconds: number;
  readonly shortestSeconds: number;
  readonly smallestGap: number;
  /** Whether playing without words is described: `[music: bars 5-8]`. */
  readonly describeMusic: boolean;
}

export const defaultCaptionStyle: CaptionStyle = {
  lineLength: 42,
  lines: 2,
  longestSeconds: 7,
  shortestSeconds: 0.8,
  smallestGap: 1,
  describeMusic: true,
};

/** How long a caption stays after its last word, in seconds, and how long it may (BBC Subtitle Guidelines, 5.2: 1.5 s). */
const linger = 1;
const longestLinger = 1.5;
/** How long the description of a sound is shown at most, in seconds; common practice. */
const descriptionSeconds = 5;

/** Captions of a timeline in order, none overlapping another: the narration as shown, and what is played where nobody speaks. */
export function captionCues(
  timeline: Timeline,
  style: CaptionStyle = defaultCaptionStyle,
): readonly CaptionCue[] {
  const spoken = timeline.events.flatMap(event => (event.kind === 'speech' ? speechCues(event, style) : []));
  const played = timeline.events.flatMap(event =>
    event.kind === 'passage' && !event.under && style.describeMusic ? [descriptionOf(event, style)] : [],
  );
  const cues = [...spoken, ...played].sort((a, b) => a.start - b.start);
  return cues.map((cue, index) => {
    const next = cues[index + 1]?.start ?? timeline.seconds;
    const silence = next - cue.end;
    const end = silence < longestLinger ? next : Math.min(cue.end + linger, next - style.smallestGap);
    return { ...cue, end: Math.min(next, Math.max(end, cue.start + style.shortestSeconds)) };
  });
}

function descriptionOf(passage: PassageEvent, style: CaptionStyle): CaptionCue {
  const { start } = passage;
  const units = captionUnits({ text: `[music: ${passageText(passage)}]`, words: [], start });
  return {
    start,
    end: Math.min(passage.end, start + descriptionSeconds),
    lines: linesOf(units, style).lines,
  };
}

/** Cuts one speech into captions with the least ugly breaks. */
function speechCues(speech: SpeechEvent, style: CaptionStyle): readonly CaptionCue[] {
  const units = captionUnits(speech);
  const cost: number[] = [0];
  const from: number[] = [0];
  for (let end = 1; end <= units.length; end += 1) {
    cost[end] = Infinity;
    for (let start = end - 1; start >= 0; start -= 1) {
      const group = units.slice(start, end);
      if (group.length > 1 && !fits(group, style)) break;
      const total = (cost[start] ?? Infinity) + groupCost(group, end === units.length, style);
      if (total < (cost[end] ?? Infinity)) {
        cost[end] = total;
        from[end] = start;
      }
    }
  }
  const cues: CaptionCue[] = [];
  for (let end = units.length; end > 0; end = from[end] ?? 0) {
    const group = units.slice(from[end] ?? 0, end);
    const [first, last] = [group[0], group.at(-1)];
    if (first === undefined || last === undefined) break;
    cues.unshift({ start: first.start, end: last.end, lines: linesOf(group, style).lines, say: speech.say });
  }
  return cues;
}

function fits(group: readonly CaptionUnit[], style: CaptionStyle): boolean {
  const [first, last] = [group[0], group.at(-1)];
  if (first === undefined || last === undefined) return true;
  if (last.end - first.start > style.longestSeconds) return false;
  if (group.slice(0, -1).some(unit => unit.endsParagraph)) return false;
  const { lines } = linesOf(group, style);
  return lines.length <= style.lines && lines.every(line => line.length <= style.lineLength);
}

/** What it costs to make a caption of these units: each caption, a break inside a sentence or clause, a bad line end, a caption that is too short. */
function groupCost(group: readonly CaptionUnit[], isLast: boolean, style: CaptionStyle): number {
  const last = group.at(-1);
  const first = group[0];
  if (last === undefined || first === undefined) return 0;
  const break_ =
    isLast || last.endsSentence
      ? 0
      : last.endsClause
        ? 4
        : last.leadsOn
          ? 20
          : last.beforeConjunction
            ? 7
            : 14;
  const crossed = group.slice(0, -1).filter(unit => unit.endsSentence).length * 2;
  const short = last.end - first.start < style.shortestSeconds * 1.5 ? 8 : 0;
  const splits = linesOf(group, style).leadsOn ? 6 : 0;
  return 5 + break_ + crossed + short + splits;
}

const textOf = (group: readonly CaptionUnit[]): string => group.map(unit => unit.text).join(' ');

interface Lines {
  readonly lines: readonly string[];
  /** Whether a line ends on a word that leads on to the next one. */
  readonly leadsOn: boolean;
}

/** The text in as few lines as hold it, broken where both are about equally long, rather after punctuation, rather not after an article. */
function linesOf(group: readonly CaptionUnit[], style: CaptionStyle): Lines {
  const whole = textOf(group);
  if (whole.length <= style.lineLength || group.length < 2) return { lines: [whole], leadsOn: false };
  let best: ({ readonly cost: number } & Lines) | undefined;
  for (let at = 1; at < group.length; at += 1) {
    const head = textOf(group.slice(0, at));
    if (head.length > style.lineLength) break;
    const tail = textOf(group.slice(at));
    const rest =
      tail.length <= style.lineLength || style.lines <= 2
        ? { lines: [tail], leadsOn: false }
        : linesOf(group.slice(at), { ...style, lines: style.lines - 1 });
    const tooLong = rest.lines.some(line => line.length > style.lineLength) ? 1000 : 0;
    const last = group[at - 1];
    const cost = tooLong + Math.abs(head.length - tail.length) + splitCost(last);
    const leadsOn = last?.leadsOn === true || rest.leadsOn;
    if (best === undefined || cost < best.cost) best = { cost, lines: [head, ...rest.lines], leadsOn };
  }
  return best ?? { lines: [whole], leadsOn: false };
}

function splitCost(last: CaptionUnit | undefined): number {
  if (last === undefined || last.leadsOn) return 30;
  if (last.endsClause || last.endsSentence) return 0;
  return last.beforeConjunction ? 4 : 12;
}
