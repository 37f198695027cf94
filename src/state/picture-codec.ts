/** The browser's own decoder and encoder of pictures. */

export interface DecodedPicture {
  /** px */
  readonly width: number;
  readonly height: number;
  /** The picture at another size, encoded anew: no metadata of the original (place, camera) survives. */
  encode(width: number, height: number): Promise<Blob>;
  /** Lets go of the decoded pixels. */
  close(): void;
}

/** Undefined for what the browser cannot read as a picture. */
export type DecodePicture = (blob: Blob) => Promise<DecodedPicture | undefined>;

/** Visually near the original for drawings and photographs at this size (common practice, no source). */
const quality = 0.85;

export const decodePicture: DecodePicture = async (blob) => {
  let bitmap: ImageBitmap;
  try {
    // Turned as the camera meant it: the note that says so does not survive.
    bitmap = await createImageBitmap(blob, { imageOrientation: 'from-image' });
  } catch (error) {
    // InvalidStateError: not a picture, or of a kind this browser does not know.
    if (error instanceof DOMException) return undefined;
    throw error;
  }
  return {
    width: bitmap.width,
    height: bitmap.height,
    encode: (width, height) => encode(bitmap, width, height),
    close: () => bitmap.close(),
  };
};

async function encode(bitmap: ImageBitmap, width: number, height: number): Promise<Blob> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  if (!context) throw new Error('encode: the browser gives no canvas to draw on');
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, width, height);
  const webp = await canvas.convertToBlob({ type: 'image/webp', quality });
  if (webp.type === 'image/webp') return webp;
  // A browser that cannot write WebP gives PNG; JPEG is smaller but has no see-through parts.
  context.globalCompositeOperation = 'destination-over';
  context.fillStyle = '#fff';
  context.fillRect(0, 0, width, height);
  return canvas.convertToBlob({ type: 'image/jpeg', quality });
}
