/**
 * Attributes of a Gerber file (X2 and X3): of the file, of apertures and of objects. Source: Ucamco, "The Gerber Layer Format
 * Specification", revision 2024.05, 5.
 */

/** Fields by the attribute's name: `.FileFunction` has `Copper`, `L1`, `Top`. */
export type Attributes = ReadonlyMap<string, readonly string[]>

export class AttributeStore {
  readonly file = new Map<string, readonly string[]>()
  private apertureNow = new Map<string, readonly string[]>()
  private objectNow = new Map<string, readonly string[]>()

  /** What apertures that are defined now get. */
  get aperture(): Attributes {
    return this.apertureNow
  }

  /** What objects that are drawn now get. */
  get object(): Attributes {
    return this.objectNow
  }

  /** `TF.FileFunction,Copper,L1,Top`, `TA…`, `TO…` or `TD…`; words that are none of them are left. */
  take(word: string): void {
    const kind = word.slice(0, 2)
    const [name = '', ...fields] = word.slice(2).split(',')
    const value = fields.map(plain)
    if (kind === 'TF') this.file.set(name, value)
    // objects that were made keep the maps that were current, so these are copied and never changed
    else if (kind === 'TA') this.apertureNow = new Map(this.apertureNow).set(name, value)
    else if (kind === 'TO') this.objectNow = new Map(this.objectNow).set(name, value)
    else if (kind === 'TD') this.forget(name)
  }

  private forget(name: string): void {
    if (name === '') {
      this.apertureNow = new Map()
      this.objectNow = new Map()
      return
    }
    this.apertureNow = new Map([...this.apertureNow].filter(([key]) => key !== name))
    this.objectNow = new Map([...this.objectNow].filter(([key]) => key !== name))
  }
}

/** Of a `.FileFunction` of holes: blind and buried ones don't go through the board. */
export const endsInside = (fields: readonly string[]): boolean => fields.includes('Blind') || fields.includes('Buried')

/** Letters that a field can't have stand as \uXXXX. */
const plain = (field: string): string =>
  field.trim().replaceAll(/\\u([0-9a-f]{4})/gi, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
