import recorder from './recorder.worklet.ts?worker&url';

/** A microphone that is listened to. */
export interface Microphone {
  /** Which of the machine's microphones it is. */
  readonly device: string;
  /** In a second. */
  readonly sampleRate: number;
  /** The clock and the way out for sounds that are made meanwhile. */
  readonly context: AudioContext;
  readonly close: () => void;
}

export interface MicrophoneHandlers {
  /** Samples of one channel, as they come. */
  readonly heard: (block: Float32Array) => void;
  /** It was pulled out, or switched off by the system. */
  readonly lost: () => void;
}

/** The voice as it is: what calls need, and what makes a room sound smaller, is switched off. */
const plain: MediaTrackConstraints = {
  channelCount: { ideal: 1 },
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
};

/**
 * Opens a microphone.
 * @param device one of `microphones`; that of the system where absent
 * @throws the browser's own error, or one of ours; `microphoneTrouble` puts both into words
 */
export async function openMicrophone(
  device: string | undefined,
  { heard, lost }: MicrophoneHandlers,
): Promise<Microphone> {
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: device === undefined ? plain : { ...plain, deviceId: { exact: device } },
  });
  const context = new AudioContext({ latencyHint: 'interactive' });
  const close = (): void => {
    for (const track of stream.getTracks()) track.stop();
    if (context.state !== 'closed') void context.close();
  };
  try {
    await context.audioWorklet.addModule(recorder).catch(() => {
      throw new Error('the program that records is missing');
    });
    await context.resume();
    const node = new AudioWorkletNode(context, 'recorder', { channelCount: 1, channelCountMode: 'explicit' });
    node.port.addEventListener('message', ({ data }: MessageEvent<Float32Array>) => {
      heard(data);
    });
    node.port.start();
    // What is led to nothing is not heard; the recorder itself is silent.
    context.createMediaStreamSource(stream).connect(node).connect(context.destination);
    const [track] = stream.getAudioTracks();
    track?.addEventListener('ended', lost);
    return {
      device: track?.getSettings().deviceId ?? '',
      sampleRate: context.sampleRate,
      context,
      close: () => {
        track?.removeEventListener('ended', lost);
        close();
      },
    };
  } catch (error) {
    close();
    throw error;
  }
}

/** The machine's microphones; they have names once one of them was opened. */
export async function microphones(): Promise<readonly { readonly id: string; readonly name: string }[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices
    .filter(({ kind }) => kind === 'audioinput')
    .map(({ deviceId, label }, index) => ({
      id: deviceId,
      name: label === '' ? `microphone ${String(index + 1)}` : label,
    }));
}

/** Why there is no microphone, in words (Media Capture and Streams, 10.2: the errors of getUserMedia). */
export function microphoneTrouble(error: unknown): string {
  switch (error instanceof DOMException ? error.name : '') {
    case 'NotAllowedError':
    case 'SecurityError':
      return 'The microphone was refused. Allow it for this page in the browser, or for Barwise in the settings of the system, and try again.';
    case 'NotFoundError':
    case 'OverconstrainedError':
      return 'There is no microphone. Plug one in and try again.';
    case 'NotReadableError':
    case 'AbortError':
      return 'The microphone cannot be opened; perhaps another program holds it.';
    default:
      return `The microphone cannot be opened: ${error instanceof Error ? error.message : String(error)}`;
  }
}
