/** Colours of the drawing by what they mean, in both themes: the canvas, the stylesheet and paper read the same object. */
import { okabeIto } from '../../base/index.ts'

export type ThemeName = 'paper' | 'chalk'

export interface Theme {
  /** Behind everything, and the bench around the board. */
  readonly paper: string
  /** The board itself, panels, cards. */
  readonly sheet: string
  /** Raised or pressed fields: buttons' ground, part bodies that matter less. */
  readonly wash: string
  readonly ink: string
  readonly muted: string
  readonly hairline: string
  readonly outlineSoft: string
  readonly gridFine: string
  readonly gridCoarse: string
  readonly partFill: string
  readonly bodyFill: string
  readonly pad: string
  readonly corridor: string
  /** Ground and text of what is pressed or numbered in ink. */
  readonly onInk: string
  readonly caution: string
  readonly cautionEdge: string
  readonly focus: string
  /** Pads and probe points that are lit up. */
  readonly lit: string
  /** Meaning, from the Okabe-Ito palette: each has a second carrier (hatch, ring, number, shape). */
  readonly load: string
  readonly reach: string
  readonly field: string
  readonly need: string
  readonly clean: string
  readonly residue: string
  /** The same meanings as text, dark or light enough to read at 4.5:1. */
  readonly loadText: string
  readonly reachText: string
  readonly needText: string
  readonly cleanText: string
  readonly residueText: string
}

export const themes: Readonly<Record<ThemeName, Theme>> = {
  paper: {
    paper: '#f6f1e7',
    sheet: '#fffdf7',
    wash: '#f6f1e7',
    ink: '#2b2a27',
    muted: '#6e685d',
    hairline: '#cfc6b4',
    outlineSoft: '#9b917f',
    gridFine: '#f3ecdf',
    gridCoarse: '#e9e0d0',
    partFill: '#fffdf7',
    bodyFill: '#f3ebdc',
    pad: '#cbbfa8',
    corridor: '#b9ae99',
    onInk: '#fffdf7',
    caution: '#fff6da',
    cautionEdge: '#b8860b',
    focus: '#0072b2',
    lit: okabeIto.yellow,
    load: okabeIto.vermillion,
    reach: okabeIto.blue,
    field: okabeIto.sky,
    need: okabeIto.orange,
    clean: okabeIto.green,
    residue: okabeIto.purple,
    loadText: '#a94a00',
    reachText: '#0069a5',
    needText: '#855c00',
    cleanText: '#00734f',
    residueText: '#93406b',
  },
  chalk: {
    paper: '#1d2023',
    sheet: '#25292c',
    wash: '#2e3337',
    ink: '#efeae0',
    muted: '#aca598',
    hairline: '#474c50',
    outlineSoft: '#8a857b',
    gridFine: '#2a2e32',
    gridCoarse: '#33383c',
    partFill: '#282c30',
    bodyFill: '#32373b',
    pad: '#5d6063',
    corridor: '#6d6f6e',
    onInk: '#1d2023',
    caution: '#3a3320',
    cautionEdge: '#d9a72a',
    focus: '#6cc0f0',
    lit: okabeIto.yellow,
    load: '#f07a26',
    reach: okabeIto.sky,
    field: '#3f93c8',
    need: okabeIto.orange,
    clean: '#2fbf95',
    residue: '#dd93ba',
    loadText: '#f79a57',
    reachText: '#84c9f3',
    needText: '#f0b43c',
    cleanText: '#4fd0a8',
    residueText: '#e7aecb',
  },
}
