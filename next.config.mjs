/** @type {import("next").NextConfig} */
const config = {
  poweredByHeader: false,
  reactStrictMode: true,
  // The engraver finds its WebAssembly beside itself, the PDF writer its fonts' metrics; Yjs must be one and the same
  // for pages and rooms in a process.
  serverExternalPackages: ["verovio", "pdfkit", "yjs"],
  // `npm run validate` checks types, tests included; a start need not do it again.
  typescript: { ignoreBuildErrors: true },
};

export default config;
