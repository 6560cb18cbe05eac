/**
 * Fetches a file and tells how much of it has come.
 *
 * @param onProgress from 0 to 1; only the end when the server does not say how long it is.
 * @throws Error when it does not come.
 */
export async function fetchWithProgress(
  address: string,
  onProgress: (done: number) => void,
): Promise<ArrayBuffer> {
  const response = await fetch(address);
  if (!response.ok || response.body === null) throw new Error(`${address} answered ${response.status}`);
  const length = Number(response.headers.get("content-length") ?? 0);
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  let received = 0;
  const reader = response.body.getReader();
  for (let read = await reader.read(); !read.done; read = await reader.read()) {
    chunks.push(read.value);
    received += read.value.byteLength;
    if (length > 0) onProgress(Math.min(1, received / length));
  }
  onProgress(1);
  return new Blob(chunks).arrayBuffer();
}
