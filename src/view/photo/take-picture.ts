import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { LONGEST_SIDE, pictureText, readPictureHeader } from '../../sheet/index.ts';

/** Dots along the longer side; the next smaller one is tried while the text comes out too long. */
const SIDES = [LONGEST_SIDE, 1280, 1024, 800, 640];
/** Characters of the text: several pictures fit into a sheet. */
const LONGEST = 450_000;
const QUALITY = 0.85;
const QUALITY_TURNED = 0.92;

/**
 * The picture of a file as a document keeps it: looked at before it is decoded, upright, no larger than needed, without
 * what the camera wrote beside the dots.
 */
export async function takePicture(file: Blob): Promise<Result<string>> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const header = readPictureHeader(bytes);
  if (!header.ok) return header;
  const picture = await decode(new Blob([bytes], { type: `image/${header.value.format}` }));
  if (picture === undefined) return fail(notDecoded());
  try {
    return await write(picture.width, picture.height, QUALITY, (context, width, height) => context.drawImage(picture, 0, 0, width, height));
  } finally {
    picture.close();
  }
}

/** A stored picture after a quarter turn to the right or left. */
export async function turnPicture(stored: HTMLImageElement, to: 'right' | 'left'): Promise<Result<string>> {
  const picture = await decode(stored);
  if (picture === undefined) return fail(notDecoded());
  try {
    return await write(picture.height, picture.width, QUALITY_TURNED, (context, width, height) => {
      context.translate(to === 'right' ? width : 0, to === 'right' ? 0 : height);
      context.rotate(to === 'right' ? Math.PI / 2 : -Math.PI / 2);
      context.drawImage(picture, 0, 0, height, width);
    }, [Math.max(picture.width, picture.height)]);
  } finally {
    picture.close();
  }
}

type Draw = (context: CanvasRenderingContext2D, width: number, height: number) => void;

async function write(across: number, down: number, quality: number, draw: Draw, sides = SIDES): Promise<Result<string>> {
  for (const side of sides) {
    const scale = Math.min(1, side / Math.max(across, down));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(across * scale));
    canvas.height = Math.max(1, Math.round(down * scale));
    const context = canvas.getContext('2d');
    if (context === null) break;
    // A picture with clear parts lies on white, as on paper.
    context.fillStyle = '#fff';
    context.fillRect(0, 0, canvas.width, canvas.height);
    draw(context, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => {
      canvas.toBlob(resolve, 'image/jpeg', quality);
    });
    const text = blob === null ? undefined : pictureText(new Uint8Array(await blob.arrayBuffer()));
    if (text === undefined) break;
    if (text.length <= LONGEST || side === sides.at(-1)) return ok(text);
  }
  return fail(notWritten());
}

/** undefined where the browser can't make a picture of it: that is the reader's file, and no fault of ours. */
async function decode(file: ImageBitmapSource): Promise<ImageBitmap | undefined> {
  try {
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return undefined;
  }
}

function notDecoded(): Problem {
  return {
    code: 'picture-not-decoded',
    what: 'The browser can’t read this picture: it is damaged, or larger than this device can hold.',
    mend: 'Copy it once more from the camera, or take another one.',
  };
}

function notWritten(): Problem {
  return { code: 'picture-not-written', what: 'The browser gives no picture back.', mend: 'Close other pages and try again, or use another browser.' };
}
