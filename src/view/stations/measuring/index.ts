/** The two stations where readings are taken: cold, before any power; then under power. */
import { say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import { later } from '../../controls/later.tsx'
import type { Selection } from '../../sheet/index.ts'
import { boardOverlays } from '../boardOverlays.ts'
import type { StationEntry } from '../entry.ts'
import { coldMeasuring as heldCold, poweredMeasuring as heldPowered } from './states.ts'

/** Lines of the sheet are rails and stages. */
const isLine = ({ kind, id }: Selection, model: BoardModel | undefined): boolean =>
  kind === 'rail' || (kind === 'part' && model?.partByRef.get(id)?.kind === 'power-stage')

export const coldMeasuring: StationEntry = {
  name: say('Cold measuring'),
  key: '2',
  Form: later(async () => (await import('./ColdMeasuring.tsx')).ColdMeasuring),
  state: ({ present, model }) => heldCold(present, model),
  overlays: {
    id: 'short',
    shown: { errorLoad: false, reach: false, field: false, liftOrder: false, labels: true, short: true },
    without: ['passes', 'heat', 'proof'],
  },
  showsLiftList: true,
  isLine,
}

export const poweredMeasuring: StationEntry = {
  name: say('Powered measuring'),
  key: '3',
  Form: later(async () => (await import('./PoweredMeasuring.tsx')).PoweredMeasuring),
  state: ({ present }) => heldPowered(present),
  overlays: boardOverlays,
  showsLiftList: true,
  isLine,
}
