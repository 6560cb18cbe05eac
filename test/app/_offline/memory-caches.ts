/** A browser's caches for tests: one of them, whose answers lie in a map by their addresses. */
export function memoryCaches(cache: Map<string, Response>, origin: string) {
  return {
    open: async () => ({
      match: async (address: string) => cache.get(address)?.clone(),
      put: async (address: string, answer: Response) => void cache.set(address, answer),
      delete: async (address: string) => cache.delete(address),
      keys: async () => [...cache.keys()].map((address) => ({ url: origin + address })),
    }),
  };
}
