/**
 * Puts what is looked at into the address, without a step back to it. Without a state of its own the router takes the
 * address over: else it would put back its own when the page is read again.
 */
export function keepAddress(address: string | URL): void {
  window.history.replaceState(null, "", address);
}
