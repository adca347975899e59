/** A small board by hand, for tests that spoil it: a core, a memory on either side of it, one of them on the bottom. */
import type { z } from 'zod'
import type { boardSchema } from '../../src/board/index.ts'

/** A fresh copy each time; plain data, as JSON.parse would give it. */
export function smallBoard(): z.input<typeof boardSchema> {
  return {
    format: 'liftmap-board',
    version: 1,
    name: 'small',
    outline: [
      { x: 0, y: 0 },
      { x: 120, y: 0 },
      { x: 120, y: 80 },
      { x: 0, y: 80 },
    ],
    holes: [
      { at: { x: 5, y: 5 }, diameterMm: 3 },
      {
        polygon: [
          { x: 5, y: 60 },
          { x: 10, y: 60 },
          { x: 10, y: 70 },
        ],
      },
    ],
    parts: [
      { ref: 'U1', kind: 'core', side: 'top', at: { x: 60, y: 40 }, package: 'core-29' },
      { ref: 'U2', kind: 'memory', side: 'top', at: { x: 95, y: 40 }, rotationDeg: 270, package: '180-ball' },
      { ref: 'U3', kind: 'memory', side: 'bottom', at: { x: 25, y: 40 }, package: '180-ball' },
      {
        ref: 'S1',
        kind: 'power-stage',
        side: 'top',
        at: { x: 60, y: 70 },
        body: { widthMm: 5, lengthMm: 6, heightMm: 1 },
        pads: [
          { number: '1', at: { x: -2, y: -2 }, widthMm: 0.5, lengthMm: 1 },
          { number: '2', at: { x: 2, y: -2 }, widthMm: 0.5, lengthMm: 1 },
        ],
      },
    ],
    rails: [
      {
        name: 'VMEM',
        nominalV: 1.35,
        ohmsToGround: { lowOhm: 20, highOhm: 150, from: 'common practice, no source' },
        stages: ['S1'],
        feeds: ['U2', 'U3'],
        branches: [{ name: 'east', feeds: ['U2'] }],
        points: [{ side: 'top', at: { x: 62, y: 68 }, part: 'S1', pad: '2' }],
      },
    ],
    memory: {
      channels: [
        { id: 'CH0', part: 'U2', lanes: [{ name: 'A0' }, { name: 'A1' }] },
        { id: 'CH1', part: 'U2', lanes: [{ name: 'B0' }, { name: 'B1' }] },
        { id: 'CH2', part: 'U3', lanes: [{ name: 'A0' }, { name: 'A1' }] },
        { id: 'CH3', part: 'U3', lanes: [{ name: 'B0' }, { name: 'B1' }] },
      ],
    },
    addressMap: {
      addressBits: 32,
      channel: {
        digits: [
          { kind: 'xor', mask: '0x20200' },
          { kind: 'xor', mask: '0x10100' },
        ],
        order: ['CH0', 'CH1', 'CH2', 'CH3'],
      },
    },
  }
}
