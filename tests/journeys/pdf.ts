import { unzlibSync } from 'fflate';

/**
 * How many pages a PDF has. Browsers may pack the descriptions of its pages into compressed streams.
 * Source: the PDF specification (ISO 32000-1), sections 7.5.7 (object streams) and 7.7.3 (page tree).
 */
export function sheetsOf(pdf: Buffer): number {
  const text = pdf.toString('latin1');
  const packed = [...text.matchAll(/\/ObjStm\b[^]*?stream\r?\n/g)].map(({ index, 0: head }) => {
    const start = index + head.length;
    return Buffer.from(unzlibSync(pdf.subarray(start, text.indexOf('endstream', start)))).toString(
      'latin1',
    );
  });
  return [text, ...packed].join('\n').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}
