/** The caution against powering the card: stays for as long as something that was entered speaks against it. */
import { CautionBox } from '../controls/pieces.tsx'
import { powerCaution } from '../stores/cautions.ts'
import { usePresent } from '../stores/hooks.ts'

export function PowerCaution({ whole = false }: { readonly whole?: boolean }) {
  const present = usePresent()
  const caution = present && powerCaution(present)
  if (caution === undefined) return undefined
  const shown = whole ? caution.reasons : caution.reasons.slice(0, 2)
  return (
    <CautionBox title={caution.title} reasons={shown}>
      {whole && (
        <p>
          Where the rules of your place or a qualified person say otherwise, they stand above this. Charged capacitors
          and a shorted card can hurt you: if you are in doubt, ask before you power it.
        </p>
      )}
    </CautionBox>
  )
}
