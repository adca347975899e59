/** The five invented cards. Their names are knots. */
import { mapOf } from './maps.ts'
import type { CardPlan } from './plan.ts'

const INVENTED = 'Invented: no real card is like it.'

const bowline: CardPlan = {
  name: 'bowline-8',
  note: `Eight 180-ball packages on four sides, 256 bit, 16 channels, 8 GiB. ${INVENTED}`,
  widthMm: 267,
  heightMm: 111,
  core: { package: 'core-40', sizeMm: 40, at: { x: 122, y: 60 } },
  memory: {
    package: '180-ball',
    widthMm: 12,
    lengthMm: 14,
    gapMm: 10,
    offsetsMm: { top: [-10, 10], right: [-10, 10], bottom: [-10, 10], left: [-10, 10] },
    clamshell: false,
    priceEach: 14,
  },
  stagesRight: 7,
  stagesLeft: 4,
  memoryVolts: 1.35,
  hasVpp: true,
  corePrice: 190,
  addressMap: (ids) => mapOf({ addressBits: 33, modulus: 1, xorBits: [11, 10, 9, 8], restBits: 33 }, ids),
}

const hitch: CardPlan = {
  name: 'hitch-12',
  note: `Twelve 180-ball packages on four sides, 384 bit, 24 channels, 24 GiB: a factor 3 in the map. ${INVENTED}`,
  widthMm: 305,
  heightMm: 126,
  core: { package: 'core-45', sizeMm: 45, at: { x: 132, y: 67 } },
  memory: {
    package: '180-ball',
    widthMm: 12,
    lengthMm: 14,
    gapMm: 10,
    offsetsMm: { top: [-14.5, 0, 14.5], right: [-14.5, 0, 14.5], bottom: [-14.5, 0, 14.5], left: [-14.5, 0, 14.5] },
    clamshell: false,
    priceEach: 19,
  },
  stagesRight: 9,
  stagesLeft: 5,
  memoryVolts: 1.35,
  hasVpp: true,
  corePrice: 420,
  addressMap: (ids) =>
    mapOf({ addressBits: 35, limit: '0x600000000', modulus: 3, xorBits: [10, 9, 8], restBits: 33 }, ids),
}

const splice: CardPlan = {
  name: 'splice-6',
  note: `Six 170-ball packages on three sides, 192 bit, 6 channels, 6 GiB: a factor 3 in the map. ${INVENTED}`,
  widthMm: 267,
  heightMm: 111,
  core: { package: 'core-29', sizeMm: 29, at: { x: 116, y: 60 } },
  memory: {
    package: '170-ball',
    widthMm: 12,
    lengthMm: 14,
    gapMm: 11,
    offsetsMm: { top: [-9, 9], right: [-9, 9], bottom: [-9, 9] },
    clamshell: false,
    priceEach: 9,
  },
  stagesRight: 6,
  stagesLeft: 3,
  memoryVolts: 1.5,
  hasVpp: false,
  corePrice: 85,
  addressMap: (ids) => mapOf({ addressBits: 33, limit: '0x180000000', modulus: 3, xorBits: [8], restBits: 31 }, ids),
}

const cleat: CardPlan = {
  name: 'cleat-10',
  note: `Ten 190-ball packages on three sides, 320 bit, 10 channels, 10 GiB: a factor 5 in the map. ${INVENTED}`,
  widthMm: 285,
  heightMm: 118,
  core: { package: 'core-40', sizeMm: 40, at: { x: 126, y: 60 } },
  memory: {
    package: '190-ball',
    widthMm: 10,
    lengthMm: 14,
    gapMm: 12,
    offsetsMm: { top: [-19.5, -6.5, 6.5, 19.5], right: [-13, 0, 13], left: [-13, 0, 13] },
    clamshell: false,
    priceEach: 16,
  },
  stagesRight: 8,
  stagesLeft: 4,
  memoryVolts: 1.35,
  hasVpp: true,
  corePrice: 230,
  addressMap: (ids) => mapOf({ addressBits: 34, limit: '0x280000000', modulus: 5, xorBits: [8], restBits: 31 }, ids),
}

const sheetBend: CardPlan = {
  name: 'sheet-bend-16',
  note: `Sixteen 180-ball packages back to back on both sides, 256 bit, 16 channels of two packages each, 16 GiB. ${INVENTED}`,
  widthMm: 267,
  heightMm: 111,
  core: { package: 'core-40', sizeMm: 40, at: { x: 122, y: 60 } },
  memory: {
    package: '180-ball',
    widthMm: 12,
    lengthMm: 14,
    gapMm: 9,
    offsetsMm: { top: [-10, 10], right: [-10, 10], bottom: [-10, 10], left: [-10, 10] },
    clamshell: true,
    priceEach: 14,
  },
  stagesRight: 8,
  stagesLeft: 4,
  memoryVolts: 1.35,
  hasVpp: true,
  corePrice: 310,
  addressMap: (ids) => mapOf({ addressBits: 34, modulus: 1, xorBits: [11, 10, 9, 8], restBits: 34 }, ids),
}

export const cardPlans: readonly CardPlan[] = [bowline, hitch, splice, cleat, sheetBend]
