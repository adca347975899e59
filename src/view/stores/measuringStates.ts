/** What the two measuring stations hold and still lack. */
import type { Case } from '../../case/index.ts'
import type { StationState } from './stationStates.ts'

export function coldMeasuring({ measurements }: Case): StationState {
  const cold = measurements.filter(({ quantity }) => quantity === 'ohms').length
  const shared = { station: 'cold-measuring', name: 'Cold measuring' } as const
  return cold === 0
    ? { ...shared, state: 'empty', words: 'nothing measured yet', lacks: 'measure before any power' }
    : { ...shared, state: 'partly', words: `${cold} measured`, lacks: undefined }
}

export function poweredMeasuring({ measurements }: Case): StationState {
  const volts = measurements.filter(({ quantity }) => quantity === 'volts').length
  const shared = { station: 'powered-measuring', name: 'Powered measuring' } as const
  return volts === 0
    ? { ...shared, state: 'empty', words: 'not powered here yet', lacks: undefined }
    : { ...shared, state: 'partly', words: `${volts} measured`, lacks: undefined }
}
