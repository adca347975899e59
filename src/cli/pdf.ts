/** Sets a record's definition into a PDF, on this machine alone. */
import { dirname, join } from 'node:path'
import { createRequire } from 'node:module'
import type { TDocumentDefinitions } from 'pdfmake/interfaces'

/** @returns the bytes of the PDF; pdfmake is loaded only here, as no other verb needs it */
export async function pdfBytes(definition: TDocumentDefinitions): Promise<Uint8Array> {
  const { default: pdfmake } = await import('pdfmake')
  const folder = join(dirname(createRequire(import.meta.url).resolve('pdfmake/package.json')), 'fonts/Roboto')
  const file = (name: string): string => join(folder, `Roboto-${name}.ttf`)
  pdfmake.setFonts({
    Roboto: {
      normal: file('Regular'),
      bold: file('Medium'),
      italics: file('Italic'),
      bolditalics: file('MediumItalic'),
    },
  })
  // A record holds its pictures itself: nothing else of the machine or the net may get in, whatever stands in a case.
  pdfmake.setUrlAccessPolicy(() => false)
  pdfmake.setLocalAccessPolicy((path) => path.startsWith(folder))
  return await pdfmake.createPdf(definition).getBuffer()
}
