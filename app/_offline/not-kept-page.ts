/** The page in place of one that is not kept. It has no scripts and loads nothing. */
export function notKeptPage(pathname: string): Response {
  const isPiece = /^\/pieces\/(?!new$)/.test(pathname);
  const words = isPiece
    ? "No connection, and this piece is not kept on this device. The pieces you opened here last are."
    : "No connection, and this page is not kept on this device.";
  return new Response(page(words), {
    status: 503,
    headers: {
      "content-type": "text/html; charset=utf-8",
      "content-security-policy":
        "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
      "x-content-type-options": "nosniff",
      "referrer-policy": "same-origin",
      "cache-control": "no-store",
    },
  });
}

function page(words: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>No connection · Colla Parte</title>
<style>
:root { color-scheme: light dark; }
body { margin: 0; font: 1rem/1.45 "Segoe UI", system-ui, sans-serif; background: #dfe2e0; color: #15171b; }
main { max-width: 30rem; margin: 14vh auto; padding: 1.75rem; background: #fdfcf9; border-radius: 2px; }
h1 { margin: 0 0 .75rem; font: 400 2rem/1.2 Georgia, serif; }
a { display: inline-block; padding: .7rem 1rem; color: inherit; border: 1px solid; border-radius: 4px; text-decoration: none; }
a + a { margin-left: .5rem; }
@media (prefers-color-scheme: dark) {
  body { background: #0d0e10; color: #dcd6c8; }
  main { background: #191a1d; }
}
</style>
</head>
<body>
<main>
<h1>No connection</h1>
<p>${words} Nothing you wrote is lost.</p>
<p><a href="">Try again</a> <a href="/">Your pieces</a></p>
</main>
</body>
</html>
`;
}
