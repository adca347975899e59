/** A number that may be left empty; it lies with the controls. */
export { AmountField } from '../../controls/AmountField.tsx'
