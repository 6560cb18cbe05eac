/** Where the rooms of the page's own server lie, for a WebSocket. */
export function roomAddress({ protocol, host }: Pick<Location, "protocol" | "host">): string {
  return `${protocol === "https:" ? "wss:" : "ws:"}//${host}/rooms`;
}
