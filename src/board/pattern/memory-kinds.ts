/** What the memory packages mean for a board: supplies, how two stand back to back, how many share a channel. */
import { packageOutlines } from '../packages.ts'
import type { PackageOutline } from '../package-outline.ts'

export const patternPackages = [
  '170-ball',
  '180-ball',
  '190-ball',
  '266-ball',
  '200-ball',
  '315-ball',
  '96-ball-ddr3',
  '96-ball-ddr4',
  '102-ball',
  'stack-8x128',
  'stack-16x64',
] as const
export type PatternPackage = (typeof patternPackages)[number]

export interface MemoryKind {
  /** Nominal voltage of the memory’s main supply. */
  readonly volts: number
  /** A second supply of the packages, where they have one. */
  readonly second?: { readonly name: string; readonly volts: number }
  /**
   * The two lanes of a package that stay in use where two stand back to back and share their channels, each giving half
   * the bytes. Left out: a package behind another is one more of its own.
   */
  readonly halves?: readonly [string, string]
  /** Stands beside the die on the core’s substrate, not on the board. */
  readonly onSubstrate?: true
  /** Packages whose command lines are one net. */
  readonly packagesPerChannel: number
}

/**
 * Supplies: JEDEC JESD235B (HBM DRAM, 2018), JESD238 (HBM3 DRAM, 2022), JESD239 (GDDR7, 2024), JESD209-5 (LPDDR5), JESD79-5 (DDR5), JESD212 (GDDR5 SGRAM), JESD232A (GDDR5X, 2016), JESD250D (GDDR6, 2023), JESD209-4 (LPDDR4), JESD79-3
 * (DDR3), JESD79-4 (DDR4). Bytes in use back to back: x8 mode of JESD250D for 180 balls; bytes 0 and 2 of the x16 mode for
 * 170 and 190 balls; two of the four channels in the two-channel mode of JESD239, which two by rule. All from memory. Four x16 packages to a 64-bit channel: common practice, no source.
 */
export const memoryKinds: Readonly<Record<PatternPackage, MemoryKind>> = {
  '170-ball': { volts: 1.5, halves: ['B0', 'B2'], packagesPerChannel: 1 },
  '180-ball': {
    volts: 1.35,
    second: { name: 'VPP', volts: 1.8 },
    halves: ['A0', 'B1'],
    packagesPerChannel: 1,
  },
  '190-ball': {
    volts: 1.35,
    second: { name: 'VPP', volts: 1.8 },
    halves: ['B0', 'B2'],
    packagesPerChannel: 1,
  },
  '266-ball': {
    volts: 1.2,
    second: { name: 'VPP', volts: 1.8 },
    halves: ['A', 'D'],
    packagesPerChannel: 1,
  },
  '200-ball': { volts: 1.1, second: { name: 'VDD1', volts: 1.8 }, packagesPerChannel: 1 },
  '315-ball': { volts: 1.05, second: { name: 'VDD1', volts: 1.8 }, packagesPerChannel: 1 },
  '96-ball-ddr3': { volts: 1.5, packagesPerChannel: 4 },
  '96-ball-ddr4': { volts: 1.2, second: { name: 'VPP', volts: 2.5 }, packagesPerChannel: 4 },
  '102-ball': { volts: 1.1, second: { name: 'VPP', volts: 1.8 }, packagesPerChannel: 4 },
  'stack-8x128': { volts: 1.2, second: { name: 'VPP', volts: 2.5 }, onSubstrate: true, packagesPerChannel: 1 },
  'stack-16x64': { volts: 1.1, second: { name: 'VPP', volts: 1.8 }, onSubstrate: true, packagesPerChannel: 1 },
}

/** Bus widths, in bits, that a card with such packages may have: at most eight stacks on a core. */
export const busLimits = (name: PatternPackage): { readonly min: number; readonly max: number } =>
  memoryKinds[name].onSubstrate === true ? { min: 1024, max: 8192 } : { min: 64, max: 512 }

/** The outline of a package by name; the pattern's packages all have one. */
export function outlineNamed(name: PatternPackage): PackageOutline {
  const outline = packageOutlines.get(name)
  if (outline === undefined) throw new Error(`no package outline ${name}`)
  return outline
}

/** Lanes of each channel of one package: a channel is what one group of command balls serves by itself. */
export function channelLanes(outline: PackageOutline): string[][] {
  const lanes = outline.regions.filter(({ role }) => role === 'lane').map(({ name }) => name)
  const groups = outline.regions
    .filter(({ role }) => role === 'command')
    .map(({ serves }) => serves ?? lanes)
    .toSorted((a, b) => a.length - b.length)
  const channels = new Map<readonly string[], string[]>()
  for (const lane of lanes) {
    const group = groups.find((served) => served.includes(lane)) ?? lanes
    channels.set(group, [...(channels.get(group) ?? []), lane])
  }
  return [...channels.values()]
}

/** Data bits of one package with all its lanes in use. */
export function packageBits(outline: PackageOutline): number {
  return outline.regions
    .filter(({ role }) => role === 'lane')
    .reduce((sum, { dq, bitCount }) => sum + (dq?.length ?? bitCount ?? 8), 0)
}
