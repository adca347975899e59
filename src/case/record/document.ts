/** A record before it is printed: title, facts and sections of plain blocks. Text is plain text; the printers escape it. Types, and when a picture counts as wide. */

/** For `intake` the slip that stays with the card; quote and invoice are pages of their own for the owner. */
export type Audience = 'owner' | 'technician' | 'intake' | 'quote' | 'invoice'

export interface RecordColumn {
  readonly name: string
  /** Numbers stand to the right. */
  readonly number?: boolean
}

export interface RecordFact {
  readonly name: string
  readonly value: string
}

export type RecordBlock =
  | { readonly kind: 'paragraph'; readonly text: string }
  /** Somebody's own words, as they were entered. */
  | { readonly kind: 'quote'; readonly by: string; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'facts'; readonly caption: string; readonly facts: readonly RecordFact[] }
  | {
      readonly kind: 'table'
      readonly caption: string
      readonly columns: readonly RecordColumn[]
      /** The first cell of a row names it. */
      readonly rows: readonly (readonly string[])[]
      readonly sum?: readonly string[]
    }
  /** Shown side by side where there are two. */
  | { readonly kind: 'pictures'; readonly pictures: readonly RecordPicture[] }
  /** `at` says where they are met; `Caution` where it is left out. */
  | { readonly kind: 'cautions'; readonly at?: string; readonly sentences: readonly string[] }

export interface RecordPicture {
  /** SVG text, or a data URL of a photo. */
  readonly source: { readonly svg: string } | { readonly dataUrl: string }
  /** What there is to see, for those who don't. */
  readonly alt: string
  readonly caption: string
  readonly widthPx: number
  readonly heightPx: number
}

/** Wider than this a drawing is too small beside another one, and has the paper's width to itself. */
export const WIDE = 1.6

export interface RecordSection {
  readonly title: string
  readonly blocks: readonly RecordBlock[]
}

export interface RecordDocument {
  readonly audience: Audience
  /** As a BCP 47 tag. */
  readonly language: string
  readonly title: string
  readonly under: string
  readonly facts: readonly RecordFact[]
  /** Beside the title: a code to type, and its picture for a camera. */
  readonly code?: { readonly words: string; readonly svg: string }
  readonly sections: readonly RecordSection[]
  /** At the foot of each page. */
  readonly foot: string
  /** The day it was made, as `YYYY-MM-DD`. */
  readonly day: string
}
