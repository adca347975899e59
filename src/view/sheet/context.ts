/** What the hand, the keys and the panes share: the latest props, the sorted board, the two stores. */
import type { HandStore } from './handStore.ts'
import type { SheetProps } from './props.ts'
import type { Scene } from './pure/scene.ts'

export interface SheetContext {
  /** The props of the last render: handlers live longer than one. */
  readonly props: () => SheetProps
  readonly scene: () => Scene
  readonly hand: HandStore
}
