/** A small picture of how the sheet marks what a reading blames. */
import { useId } from 'react'

export function ReadingSymbol({ of }: { readonly of: 'A' | 'B' }) {
  const pattern = useId()
  if (of === 'A')
    return (
      <svg width="34" height="28" viewBox="0 0 34 28" aria-hidden="true">
        <pattern id={pattern} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(40)">
          <path d="M0 0V5" stroke="var(--reach-text)" strokeWidth="1.6" />
        </pattern>
        <rect
          x="8"
          y="8"
          width="24"
          height="18"
          fill={`url(#${pattern})`}
          stroke="var(--reach-text)"
          strokeWidth="2.5"
        />
        <rect x="0" y="0" width="17" height="17" fill="var(--reach-text)" />
        <text x="8.5" y="13.5" textAnchor="middle" fontSize="13" fontWeight="700" fill="var(--sheet)">
          A
        </text>
      </svg>
    )
  return (
    <svg width="34" height="28" viewBox="0 0 34 28" aria-hidden="true">
      <pattern id={pattern} width="5" height="5" patternUnits="userSpaceOnUse">
        <circle cx="2.5" cy="2.5" r="1" fill="var(--muted)" />
      </pattern>
      <rect
        x="2"
        y="8"
        width="24"
        height="18"
        fill={`url(#${pattern})`}
        stroke="var(--residue-text)"
        strokeWidth="2.5"
        strokeDasharray="5 3.5"
      />
      <circle cx="25" cy="8.5" r="8" fill="var(--sheet)" stroke="var(--residue-text)" strokeWidth="2" />
      <text x="25" y="13" textAnchor="middle" fontSize="13" fontWeight="700" fill="var(--residue-text)">
        B
      </text>
    </svg>
  )
}
