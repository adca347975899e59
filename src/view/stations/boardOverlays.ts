/** What most stations draw on the sheet: failures, reach, how it flowed, the order of lifting. */
import type { OverlaySet } from './entry.ts'

export const boardOverlays: OverlaySet = {
  id: 'board',
  shown: { errorLoad: true, reach: true, field: true, liftOrder: true, labels: true },
  without: ['passes', 'heat', 'proof', 'short'],
}
