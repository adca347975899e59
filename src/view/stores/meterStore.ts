/** The bench meter at this screen, and which phase the measuring sheets are in. View state only. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import { useStore } from 'zustand'
import type { Meter, Phase } from '../../measure/index.ts'
import { type MeterPorts, type OpenPort, webSerialPorts } from '../meter/ports.ts'
import type { Desk } from './desk.ts'
import { useDesk } from './hooks.ts'

export interface MeterState {
  /** Undefined where this browser can't reach a meter. */
  readonly ports: MeterPorts | undefined
  readonly baudRate: number
  readonly state: 'off' | 'connecting' | 'on' | 'reading'
  readonly meter: Meter | undefined
  readonly port: OpenPort | undefined
  /** What went wrong last, as a sentence. */
  readonly trouble: string | undefined
  /** Chosen by hand, for the case with that id; else it follows the log of passes. */
  readonly phase: { readonly ofCase: string | undefined; readonly chosen: Phase } | undefined
}

export type MeterStore = StoreApi<MeterState>

const USUAL_BAUD = 9600

const stores = new WeakMap<Desk, MeterStore>()

export function meterStoreOf(desk: Desk): MeterStore {
  const known =
    stores.get(desk) ??
    createStore<MeterState>(() => ({
      ports: webSerialPorts(),
      baudRate: USUAL_BAUD,
      state: 'off',
      meter: undefined,
      port: undefined,
      trouble: undefined,
      phase: undefined,
    }))
  stores.set(desk, known)
  return known
}

export function useMeter<T>(select: (state: MeterState) => T): T {
  return useStore(meterStoreOf(useDesk()), select)
}
