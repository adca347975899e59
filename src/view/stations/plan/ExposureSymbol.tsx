/** The shape of an exposure, as it is drawn on the sheet. */
import { type ExposureKind, exposureShapes } from '../../sheet/index.ts'

export function ExposureSymbol({ kind }: { readonly kind: ExposureKind }) {
  const points = exposureShapes[kind].map(({ x, y }) => `${x * 6},${y * 6}`).join(' ')
  return (
    <svg width="16" height="16" viewBox="-8 -8 16 16" aria-hidden="true">
      <polygon
        points={points}
        fill={kind === 'near' ? 'var(--sheet)' : 'var(--load-text)'}
        stroke="var(--load-text)"
        strokeWidth="1.6"
        strokeLinejoin="round"
      />
      {kind === 'over-limit' && <path d="M-2.4-2.4 2.4 2.4M2.4-2.4-2.4 2.4" stroke="var(--sheet)" strokeWidth="1.6" />}
      {kind === 'melts' && <path d="M0-2.6V1M0 2.6V3.6" stroke="var(--sheet)" strokeWidth="1.6" />}
    </svg>
  )
}
