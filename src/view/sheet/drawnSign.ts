/**
 * Tells on a pane's element, as `data-drawn`, whether its picture shows the present state: `no` from the moment when a layer
 * has something new to show, or while the font is not there yet, until that layer was drawn. What looks at the picture waits
 * for `yes`.
 */
export const layerNames = ['board', 'fields', 'hand'] as const
export type LayerName = (typeof layerNames)[number]

export interface DrawnSign {
  /** Where it is told. */
  readonly standOn: (element: HTMLElement | null) => void
  /** What draws each layer from now on; a layer that another function drew so far is behind. */
  readonly drawnBy: (draws: Readonly<Record<LayerName, unknown>>) => void
  /** These layers will be drawn anew. */
  readonly ask: (...names: readonly LayerName[]) => void
  readonly drew: (name: LayerName) => void
  /** The font is there, or will not come. */
  readonly fontCame: () => void
}

export function createDrawnSign(): DrawnSign {
  let place: HTMLElement | null = null
  const behind = new Set<LayerName | 'font'>([...layerNames, 'font'])
  let last: Readonly<Record<LayerName, unknown>> | undefined
  const tell = (): void => place?.setAttribute('data-drawn', behind.size === 0 ? 'yes' : 'no')
  const ask = (...names: readonly LayerName[]): void => {
    for (const name of names) behind.add(name)
    tell()
  }
  const came = (name: LayerName | 'font'): void => {
    behind.delete(name)
    tell()
  }
  return {
    standOn: (element) => {
      place = element
      tell()
    },
    drawnBy: (draws) => {
      ask(...layerNames.filter((name) => last?.[name] !== draws[name]))
      last = draws
    },
    ask,
    drew: came,
    fontCame: () => came('font'),
  }
}
