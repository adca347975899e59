/** The shop's name, tax, hours and words, kept by this browser: a quote or an invoice takes from here what it prints. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import { plainShop, type ShopDetails, shopDetailsSchema } from '../../case/index.ts'

export interface ShopDetailsStore extends StoreApi<ShopDetails> {
  /** Takes over what another tab has written since. */
  readonly readAgain: () => ShopDetails
}

const KEY = 'liftmap shop details'

/** A browser that stores nothing loses them with the page; what can't be read counts as not entered. */
export function shopDetailsIn(storage?: Pick<Storage, 'getItem' | 'setItem'>): ShopDetailsStore {
  const store = createStore<ShopDetails>(() => keptIn(storage) ?? plainShop)
  store.subscribe((details) => {
    try {
      storage?.setItem(KEY, JSON.stringify(details))
    } catch {
      // full or forbidden: they last as long as the page
    }
  })
  const readAgain = (): ShopDetails => {
    const kept = keptIn(storage)
    if (kept !== undefined && JSON.stringify(kept) !== JSON.stringify(store.getState())) store.setState(kept, true)
    return store.getState()
  }
  return { ...store, readAgain }
}

function keptIn(storage: Pick<Storage, 'getItem'> | undefined): ShopDetails | undefined {
  try {
    const text = storage?.getItem(KEY)
    return typeof text === 'string' ? shopDetailsSchema.safeParse(JSON.parse(text)).data : undefined
  } catch {
    return undefined
  }
}
