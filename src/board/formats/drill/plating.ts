/** What comments of a drill file say of its holes: plated or not, through the whole board or not. */

/** `Plated`, `NonPlated`, as attributes of Gerber X2 say them. */
export function platedIn(fields: readonly string[]): boolean | undefined {
  if (fields.includes('NonPlated')) return false
  return fields.includes('Plated') ? true : undefined
}

export class Plating {
  /** Of the whole file. */
  private ofFile: boolean | undefined
  /** Of the tools that follow; undefined where no attribute stands before them. */
  private ofTools: boolean | undefined
  /** Blind and buried holes. */
  endsInside = false

  takeComment(text: string): void {
    const attribute = /^;\s*#@!\s*T([FAD])(.*)$/.exec(text)
    if (attribute !== null) {
      const fields = (attribute[2] ?? '')
        .replace(/\*\s*$/, '')
        .split(',')
        .map((field) => field.trim())
      if (attribute[1] === 'D') this.ofTools = undefined
      else if (attribute[1] === 'A' && fields[0] === '.AperFunction') this.ofTools = platedIn(fields)
      else if (attribute[1] === 'F' && fields[0] === '.FileFunction') {
        this.ofFile = platedIn(fields)
        this.endsInside = fields.includes('Blind') || fields.includes('Buried')
      }
      return
    }
    // by common practice: TYPE=NON_PLATED, Contents: Thru / Drill / Plated
    const words = /(?:TYPE\s*=|Contents\s*:.*)\s*(NON[_ -]?PLATED|UNPLATED|PLATED)\b/i.exec(text)?.[1]
    if (words !== undefined) this.ofFile = words.toUpperCase() === 'PLATED'
  }

  ofTool(): boolean | undefined {
    return this.ofTools ?? this.ofFile
  }
}
