/** What the worker answers with, loaded once it knows its language. */
import { createHandlers } from './handlers.ts'
import { type Port, serve } from './serve.ts'

/** @param port the worker's own end */
export const answer = (port: Port): void => serve(port, createHandlers())
