/** What comments of a drill file say of its holes: plated or not, through the whole board or not. */
import { AttributeStore, endsInside } from '../gerber/attributes.ts'

/** `Plated`, `NonPlated`, as attributes of Gerber X2 say them. */
function platedIn(fields: readonly string[] = []): boolean | undefined {
  if (fields.includes('NonPlated')) return false
  return fields.includes('Plated') ? true : undefined
}

export class Plating {
  private readonly attributes = new AttributeStore()
  /** Of tools that don't say it themselves, by what the file said last. */
  private ofOthers: boolean | undefined

  takeComment(text: string): void {
    const attribute = /^;\s*#@!\s*(T[FAD].*?)\**\s*$/.exec(text)?.[1]
    if (attribute !== undefined) {
      this.attributes.take(attribute)
      if (attribute.startsWith('TF.FileFunction')) this.ofOthers = platedIn(this.attributes.file.get('.FileFunction'))
      return
    }
    // by common practice, no source: TYPE=NON_PLATED, Contents: Thru / Drill / Plated
    const words = /(?:TYPE\s*=|Contents\s*:.*)\s*(NON[_ -]?PLATED|UNPLATED|PLATED)\b/i.exec(text)?.[1]
    if (words !== undefined) this.ofOthers = words.toUpperCase() === 'PLATED'
  }

  /** Blind and buried holes. */
  get endsInside(): boolean {
    return endsInside(this.attributes.file.get('.FileFunction') ?? [])
  }

  /** Of a tool that is defined now. */
  ofTool(): boolean | undefined {
    return platedIn(this.attributes.aperture.get('.AperFunction')) ?? this.ofOthers
  }
}
