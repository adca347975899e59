/** The German catalogue as one file, loaded only where German is spoken. */
import type { Catalogue } from '../../base/index.ts'

const pages = import.meta.glob<Catalogue>('../../../words/de/*.json', { eager: true, import: 'default' })

export const german: Catalogue = Object.assign({}, ...Object.values(pages))
