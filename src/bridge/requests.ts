import { z } from 'zod';

/** Most UTF-16 units of a lesson that the workshop carries; what the reader accepts is less, and says so itself. */
export const mostText = 4_000_000;
/** Most bytes of one recording: ten minutes of mono sound at 48 kHz and 16 bits. */
export const mostSound = 60_000_000;

const path = z.string().min(1).max(4096);
const text = z.string().max(mostText);
/** Tells one state of a file from another: a hash of its bytes. */
const stamp = z.string().regex(/^[0-9a-f]{64}$/);
/** `3.2`: the second text of the third step, as the timeline and the takes count; `3.2.answer` the answer to a question, `3.2-1` a first paragraph. */
const sayId = z.string().regex(/^\d{1,4}\.\d{1,4}(\.answer)?(-\d{1,4})?$/);
/** A name that a window gives to a recording while it makes it. */
const tape = z.string().regex(/^[0-9a-f]{32}$/);
/** Samples of one channel as whole numbers of 16 bits, low byte first. */
const pcm = z
  .instanceof(Uint8Array)
  .refine(({ length }) => length <= mostSound, 'the recording is too long')
  .refine(({ length }) => length % 2 === 0, 'the last sample is cut off');
/** Samples in a second. */
const sampleRate = z.int().min(8000).max(192_000);
const recordingNumber = z.int().min(1).max(100_000);

/**
 * Everything that the workshop's window can ask of its host, each with the shape of what it sends. The host checks every payload
 * against this table before it does anything; what is not in the table cannot be asked.
 */
export const requests = {
  /** What the window shows first. */
  begin: z.strictObject({}),
  /** A choice by the user in a dialog of the system. Where the host has none, the window uses `browse`. */
  choose: z.strictObject({
    /** `save-as`: where a lesson is to be written; it need not exist. */
    what: z.enum(['lesson', 'score', 'folder', 'save-as']),
    /** The file or folder at which the dialog opens. */
    near: path.optional(),
  }),
  /** Files of a folder, within the folder that the host was started in. */
  browse: z.strictObject({ folder: z.string().max(4096) }),
  open: z.strictObject({ path }),
  /** A first lesson over a score, not yet on disk. */
  draft: z.strictObject({ score: path }),
  /** A score that a lesson names, beside the lesson. */
  readScore: z.strictObject({ lesson: path, score: path }),
  /** Writes the lesson (`.yaml` or `.yml`), keeps the former state as a backup. `base` is the state that the text grew from; without it the file must not exist. */
  save: z.strictObject({ path, text, base: stamp.optional() }),
  /** Keeps unsaved work where it survives the death of the window and of the host. */
  journal: z.strictObject({ path, text, base: stamp.optional() }),
  /** Forgets the unsaved work: it was saved, or the user does not want it. */
  forget: z.strictObject({ path }),
  /** The window has nothing that could be lost: the next time that it closes, it is let go. */
  leave: z.strictObject({}),
  /** Makes the student's page out of the text as it stands and says where the window finds it. */
  preview: z.strictObject({ path, text }),
  /** Writes everything that `barwise build` writes into a folder. Progress comes as events. */
  build: z.strictObject({
    path,
    text,
    folder: path,
    also: z.array(z.string().max(20)).max(20),
    job: z.string().max(40),
  }),
  /** Stops a build; nothing half written stays. */
  cancel: z.strictObject({ job: z.string().max(40) }),
  /** What is read aloud in a lesson, with its recordings and with the times that they give it. */
  takes: z.strictObject({ path, text }),
  /** A recording whole, for its waveform and for listening; 0 is the file that another program put in its place. */
  readTake: z.strictObject({ path, id: sayId, recording: recordingNumber.or(z.literal(0)) }),
  /** Writes down a stretch of a recording while it is made, so that it survives the death of the window and of the host. */
  tape: z.strictObject({
    path,
    tape,
    id: sayId,
    words: text,
    sampleRate,
    /** The sample at which the stretch begins. */
    at: z
      .int()
      .min(0)
      .max(mostSound / 2),
    pcm,
  }),
  /** Recordings of the lesson that were cut off. The answer takes as long as it takes to tell them from one that goes on. */
  cutOff: z.strictObject({ path }),
  /** Keeps a recording that was cut off beside the earlier ones; from now on it speaks the text. */
  keepTape: z.strictObject({ path, tape }),
  /** Forgets a recording that was cut off, or dropped while it was made. */
  dropTape: z.strictObject({ path, tape }),
  /** Keeps a new recording beside the earlier ones; from now on it speaks the text. What was written down of it meanwhile is forgotten. */
  saveTake: z.strictObject({
    path,
    id: sayId,
    words: text,
    pcm,
    sampleRate,
    tape: tape.optional(),
  }),
  /** Lets a recording speak the text from now on, whole or between two ends in seconds; without a recording the voice speaks it. */
  useTake: z.strictObject({
    path,
    id: sayId,
    recording: recordingNumber.optional(),
    cut: z
      .strictObject({ from: z.number().min(0), to: z.number().max(36_000) })
      .refine(({ from, to }) => from < to, 'the end lies before the beginning')
      .optional(),
  }),
  /** What spoke a text before it was recorded, chosen or cut the last time speaks it again. */
  undoTake: z.strictObject({ path, id: sayId }),
  /** Takes whose words have gone elsewhere in the lesson follow them, with all their recordings. */
  moveTakes: z.strictObject({ path, text }),
} as const;

export type Requests = typeof requests;
export type RequestName = keyof Requests;
export type Payload<N extends RequestName> = z.infer<Requests[N]>;

export const isRequestName = (name: string): name is RequestName => Object.hasOwn(requests, name);

/** What was sent with a request, checked; or why it is none. */
export type ReadPayload<N extends RequestName> =
  { readonly ok: true; readonly payload: Payload<N> } | { readonly ok: false; readonly why: string };

/** Checks what came with a request. */
export function readPayload<N extends RequestName>(name: N, sent: unknown): ReadPayload<N> {
  const read = requests[name].safeParse(sent);
  // The table's own shape for this name: the compiler does not follow it through the name.
  if (read.success) return { ok: true, payload: read.data as Payload<N> };
  return { ok: false, why: z.prettifyError(read.error) };
}
