/** The drawn board. */
import type { SheetProps } from './props.ts'

export function Sheet(props: SheetProps) {
  return <div data-board={props.model.name} />
}
