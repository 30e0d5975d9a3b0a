import type { Problem } from '../../core/problem/index.ts';

/** Sentences about pictures that can't be taken in; what the sheet holds already stays as it is. */

export function emptyFile(): Problem {
  return { code: 'picture-empty', what: 'This file is empty.', mend: 'Choose the picture once more, or take another one.' };
}

export function noPicture(): Problem {
  return {
    code: 'picture-unknown',
    what: 'This file is no picture that the page can read.',
    mend: 'Choose a JPEG or PNG file; phones and cameras give JPEG.',
  };
}

export function phoneFormat(): Problem {
  return {
    code: 'picture-phone-format',
    what: 'This picture is in a format (HEIF or AVIF) that many browsers can’t read.',
    mend: 'Set the camera to JPEG (“most compatible” on some phones), or save the picture as JPEG first.',
  };
}

export function tooManyBytes(bytes: number, most: number): Problem {
  return {
    code: 'picture-too-large',
    what: `This file has ${Math.round(bytes / 1e6)} MB; the page reads pictures of up to ${Math.round(most / 1e6)} MB.`,
    mend: 'Set the camera to a smaller picture, or save it smaller first.',
  };
}

export function tooManyDots(width: number, height: number, most: number): Problem {
  return {
    code: 'picture-too-many-dots',
    what: `This picture has ${width} × ${height} dots; the page reads up to ${Math.round(most / 1e6)} million of them.`,
    mend: 'Set the camera to a smaller picture, or save it smaller first.',
  };
}

export function brokenOff(): Problem {
  return {
    code: 'picture-cut-off',
    what: 'This picture is damaged or was cut off before its end.',
    mend: 'Copy it once more from the camera, or take another one.',
  };
}

export function moves(): Problem {
  return {
    code: 'picture-moves',
    what: 'This is a moving picture; a fracture surface keeps still.',
    mend: 'Choose a single picture.',
  };
}

/** Of a picture that stands in a document. */
export function storedUnreadable(): Problem {
  return {
    code: 'picture-unreadable',
    what: 'The picture in this cell can’t be read.',
    mend: 'Bring the picture in once more, or delete `picture`.',
    key: 'picture',
  };
}

export function storedTooLarge(width: number, height: number, longest: number): Problem {
  return {
    code: 'picture-not-from-here',
    what: `The picture in this cell has ${width} × ${height} dots; the page itself keeps up to ${longest} along a side, so it did not come from here.`,
    mend: 'Bring the picture in once more, or delete `picture`.',
    key: 'picture',
  };
}
