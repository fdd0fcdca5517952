/**
 * The part of WASI preview 1 that a program needs which reads its arguments and some files and writes others, all in memory. Nothing of
 * the machine is reachable, and the clock stands still, so the same arguments give the same result. (Node's own `node:wasi` is
 * experimental: it prints a warning and crashed Node 20 in one of about thirty runs of the embedded voice.)
 *
 * Layouts and numbers: WebAssembly/WASI, phases/snapshot/docs.md (wasi_snapshot_preview1).
 */
export interface MemoryWasi {
  /** Runs the program to its end and returns its exit code. */
  readonly run: (program: WebAssembly.Module) => Promise<number>;
  /** What was written to a file or, by the names `stdout` and `stderr`, to the outputs. */
  readonly read: (name: string) => Uint8Array | undefined;
}

/** The folder in which the program finds its files. */
export const folderName = '/work';

const errno = { success: 0, badFile: 8, invalid: 28, noEntry: 44 } as const;
const fileType = { folder: 3, file: 4 } as const;
const openFlag = { create: 1, truncate: 8 } as const;
const folderDescriptor = 3;

interface MemoryFile {
  bytes: Uint8Array;
  length: number;
}

interface OpenFile {
  readonly file: MemoryFile;
  position: number;
}

const fileOf = (bytes: Uint8Array): MemoryFile => ({ bytes, length: bytes.length });

function write(open: OpenFile, bytes: Uint8Array): void {
  const end = open.position + bytes.length;
  if (end > open.file.bytes.length) {
    const larger = new Uint8Array(Math.max(end, 2 * open.file.bytes.length));
    larger.set(open.file.bytes.subarray(0, open.file.length));
    open.file.bytes = larger;
  }
  open.file.bytes.set(bytes, open.position);
  open.position = end;
  open.file.length = Math.max(open.file.length, end);
}

/** Thrown through the program by `proc_exit`. */
class Exit extends Error {
  constructor(readonly code: number) {
    super('exit');
  }
}

/** Prepares a run with these arguments (the program's name first) and these files in `folderName`. */
export function memoryWasi(args: readonly string[], files: Readonly<Record<string, Uint8Array>>): MemoryWasi {
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();
  const stored = new Map<string, MemoryFile>(
    Object.entries(files).map(([name, bytes]) => [name, fileOf(bytes)]),
  );
  const outputs = {
    stdin: fileOf(new Uint8Array()),
    stdout: fileOf(new Uint8Array()),
    stderr: fileOf(new Uint8Array()),
  };
  const open = new Map<number, OpenFile>(
    Object.values(outputs).map((file, descriptor) => [descriptor, { file, position: 0 }]),
  );
  const encodedArgs = args.map(arg => encoder.encode(`${arg}\0`));
  const name = encoder.encode(folderName);
  let nextDescriptor = folderDescriptor + 1;
  let memory: WebAssembly.Memory | undefined;

  // The memory may have grown since the last call, so views are made anew.
  const view = (): DataView => new DataView(memory?.buffer ?? new ArrayBuffer(0));
  const bytesAt = (at: number, length: number): Uint8Array =>
    new Uint8Array(memory?.buffer ?? new ArrayBuffer(0), at, length);
  const buffersAt = (at: number, count: number): readonly Uint8Array[] =>
    Array.from({ length: count }, (_, n) =>
      bytesAt(view().getUint32(at + 8 * n, true), view().getUint32(at + 8 * n + 4, true)),
    );

  const imports = {
    args_sizes_get: (countAt: number, sizeAt: number): number => {
      view().setUint32(countAt, encodedArgs.length, true);
      view().setUint32(
        sizeAt,
        encodedArgs.reduce((sum, arg) => sum + arg.length, 0),
        true,
      );
      return errno.success;
    },
    args_get: (listAt: number, textAt: number): number => {
      let at = textAt;
      encodedArgs.forEach((arg, index) => {
        view().setUint32(listAt + 4 * index, at, true);
        bytesAt(at, arg.length).set(arg);
        at += arg.length;
      });
      return errno.success;
    },
    clock_time_get: (_clock: number, _precision: bigint, timeAt: number): number => {
      view().setBigUint64(timeAt, 0n, true);
      return errno.success;
    },
    fd_prestat_get: (descriptor: number, at: number): number => {
      if (descriptor !== folderDescriptor) return errno.badFile;
      view().setUint32(at, 0, true);
      view().setUint32(at + 4, name.length, true);
      return errno.success;
    },
    fd_prestat_dir_name: (descriptor: number, at: number, length: number): number => {
      if (descriptor !== folderDescriptor) return errno.badFile;
      bytesAt(at, length).set(name.subarray(0, length));
      return errno.success;
    },
    fd_fdstat_get: (descriptor: number, at: number): number => {
      if (descriptor !== folderDescriptor && !open.has(descriptor)) return errno.badFile;
      bytesAt(at, 24).fill(0);
      view().setUint8(at, descriptor === folderDescriptor ? fileType.folder : fileType.file);
      // All rights, for the descriptor and for what is opened from it.
      view().setBigUint64(at + 8, 0xffff_ffffn, true);
      view().setBigUint64(at + 16, 0xffff_ffffn, true);
      return errno.success;
    },
    fd_fdstat_set_flags: (): number => errno.success,
    path_open: (
      _folder: number,
      _lookup: number,
      pathAt: number,
      pathLength: number,
      flags: number,
      _rights: bigint,
      _inherited: bigint,
      _mode: number,
      descriptorAt: number,
    ): number => {
      const path = decoder.decode(bytesAt(pathAt, pathLength).slice());
      let file = stored.get(path);
      if (file === undefined && (flags & openFlag.create) === 0) return errno.noEntry;
      if (file === undefined || (flags & openFlag.truncate) !== 0)
        stored.set(path, (file = fileOf(new Uint8Array())));
      open.set(nextDescriptor, { file, position: 0 });
      view().setUint32(descriptorAt, nextDescriptor, true);
      nextDescriptor += 1;
      return errno.success;
    },
    fd_close: (descriptor: number): number => (open.delete(descriptor) ? errno.success : errno.badFile),
    fd_read: (descriptor: number, listAt: number, count: number, readAt: number): number => {
      const from = open.get(descriptor);
      if (from === undefined) return errno.badFile;
      let total = 0;
      for (const buffer of buffersAt(listAt, count)) {
        const part = from.file.bytes.subarray(
          from.position,
          Math.min(from.file.length, from.position + buffer.length),
        );
        buffer.set(part);
        from.position += part.length;
        total += part.length;
      }
      view().setUint32(readAt, total, true);
      return errno.success;
    },
    fd_write: (descriptor: number, listAt: number, count: number, writtenAt: number): number => {
      const to = open.get(descriptor);
      if (to === undefined) return errno.badFile;
      let total = 0;
      for (const buffer of buffersAt(listAt, count)) {
        write(to, buffer);
        total += buffer.length;
      }
      view().setUint32(writtenAt, total, true);
      return errno.success;
    },
    fd_seek: (descriptor: number, offset: bigint, whence: number, positionAt: number): number => {
      const at = open.get(descriptor);
      if (at === undefined) return errno.badFile;
      const base = [0, at.position, at.file.length][whence];
      if (base === undefined || base + Number(offset) < 0) return errno.invalid;
      at.position = base + Number(offset);
      view().setBigUint64(positionAt, BigInt(at.position), true);
      return errno.success;
    },
    proc_exit: (code: number): never => {
      throw new Exit(code);
    },
  };

  return {
    run: async program => {
      const { exports } = await WebAssembly.instantiate(program, { wasi_snapshot_preview1: imports });
      const { memory: own, _start: start } = exports;
      if (!(own instanceof WebAssembly.Memory) || typeof start !== 'function')
        throw new Error('not a WASI program');
      memory = own;
      try {
        (start as () => void)();
        return 0;
      } catch (error) {
        if (error instanceof Exit) return error.code;
        throw error;
      }
    },
    read: of => {
      const file = of === 'stdout' || of === 'stderr' ? outputs[of] : stored.get(of);
      return file?.bytes.slice(0, file.length);
    },
  };
}
