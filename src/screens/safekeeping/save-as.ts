/** Hands bytes to the browser as a file to be saved; nothing leaves the device. */
export function saveAs(content: Uint8Array | string, name: string, type: string): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the address a moment later.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
