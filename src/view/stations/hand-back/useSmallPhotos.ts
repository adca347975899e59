/** Small pictures of the photos of the case on the desk, by id, for a page that shows them. */
import { useEffect, useState } from 'react'
import type { Case } from '../../../case/index.ts'
import { useDesk } from '../../stores/hooks.ts'
import { smallPhotos } from './record.ts'

const none: ReadonlyMap<string, string> = new Map()

export function useSmallPhotos(photos: Case['photos'] | undefined): ReadonlyMap<string, string> {
  const desk = useDesk()
  const [small, setSmall] = useState(none)
  const ids = photos?.map(({ id }) => id).join() ?? ''
  useEffect(() => {
    let wanted = true
    const known = desk.cases.getState().history?.present.photos ?? []
    void smallPhotos(desk, ids === '' ? [] : known).then((made) => wanted && setSmall(made.size === 0 ? none : made))
    return () => {
      wanted = false
    }
  }, [desk, ids])
  return small
}
