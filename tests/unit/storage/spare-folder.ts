/** The browser's private folder, in memory: a file changes whole when its stream is closed. */
import type { SpareFile, SpareFolder } from '../../../src/storage/spare';

export interface MemoryFolder extends SpareFolder {
  readonly files: Map<string, Uint8Array<ArrayBuffer>>;
  /** Set: every write fails, as on a full disk. */
  full: boolean;
}

export function memoryFolder(): MemoryFolder {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const folder: MemoryFolder = {
    files,
    full: false,
    getFileHandle(name, options) {
      if (!files.has(name)) {
        if (!options?.create) return Promise.reject(new DOMException(name, 'NotFoundError'));
        files.set(name, new Uint8Array(0));
      }
      return Promise.resolve(fileHandle(name));
    },
    removeEntry(name) {
      files.delete(name);
      return Promise.resolve();
    },
    async *keys() {
      yield* [...files.keys()];
    },
  };

  function fileHandle(name: string): SpareFile {
    return {
      getFile: () => Promise.resolve(new File([files.get(name) ?? ''], name, { lastModified: 5 })),
      createWritable(options) {
        let content = options?.keepExistingData
          ? (files.get(name) ?? new Uint8Array(0))
          : new Uint8Array(0);
        return Promise.resolve({
          write(chunk) {
            if (folder.full) return Promise.reject(new DOMException('full', 'QuotaExceededError'));
            const encoder = new TextEncoder();
            const [position, data] =
              typeof chunk === 'string'
                ? [0, encoder.encode(chunk)]
                : 'data' in chunk
                  ? [chunk.position, encoder.encode(chunk.data)]
                  : [0, new Uint8Array(chunk)];
            const next = new Uint8Array(Math.max(content.length, position + data.length));
            next.set(content);
            next.set(data, position);
            content = next;
            return Promise.resolve();
          },
          close() {
            files.set(name, content);
            return Promise.resolve();
          },
        });
      },
    };
  }
  return folder;
}
