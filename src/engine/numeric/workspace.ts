/**
 * Working memory that is used over and over. Fresh memory has to be fetched from the system page by
 * page, which costs more than all that is then computed in it; what is needed only while a function
 * runs is taken from here instead.
 */

/** Hands out zeroed arrays until the next `begin`, after which their memory is used again. */
export interface Workspace {
  /** Takes all arrays back. Whoever holds one from before must be done with it. */
  begin(): void;
  floats(length: number): Float64Array;
  ints(length: number): Int32Array;
  bytes(length: number): Uint8Array;
}

/** Arrays begin at multiples of this many bytes, as those of floats have to. */
const alignment = 8;

/**
 * A workspace, empty at first; it grows to the most that was ever asked of it and keeps that.
 *
 * @example
 * const workspace = createWorkspace();
 * workspace.begin();
 * workspace.floats(3); // Float64Array [0, 0, 0]
 */
export function createWorkspace(): Workspace {
  let buffer = new ArrayBuffer(0);
  let used = 0;
  /** Bytes to `length` of the given size each, or elsewhere where they do not fit any more. */
  const take = (bytes: number): { memory: ArrayBuffer; offset: number } => {
    const offset = used;
    used += Math.ceil(bytes / alignment) * alignment;
    return used <= buffer.byteLength
      ? { memory: buffer, offset }
      : { memory: new ArrayBuffer(bytes), offset: 0 };
  };
  return {
    begin() {
      if (used > buffer.byteLength) buffer = new ArrayBuffer(used);
      used = 0;
    },
    floats(length) {
      const { memory, offset } = take(8 * length);
      return new Float64Array(memory, offset, length).fill(0);
    },
    ints(length) {
      const { memory, offset } = take(4 * length);
      return new Int32Array(memory, offset, length).fill(0);
    },
    bytes(length) {
      const { memory, offset } = take(length);
      return new Uint8Array(memory, offset, length).fill(0);
    },
  };
}
