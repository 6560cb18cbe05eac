/**
 * The lowest versions without a known security fault in what we use.
 * next: fixes up to 16.4.1. next-auth: 4.24.15. nodemailer, when it is there: 9.1.0.
 *
 * @type {Record<string, string>}
 */
const floors = { next: "16.4.1", "next-auth": "4.24.15", nodemailer: "9.1.0" };

/** Packages that must be one version together. */
const together = ["prisma", "@prisma/client", "@prisma/adapter-pg"];

/**
 * What is wrong with a lock file: an address of a package registry in it, or a version below its floor.
 *
 * @param {string} text of `package-lock.json`.
 * @returns {string[]} one line each; empty when all is well.
 */
export function checkLock(text) {
  /** @type {{ packages: Record<string, { version?: string, resolved?: string }> }} */
  const { packages } = JSON.parse(text);
  const installed = Object.entries(packages).filter(([folder]) => folder !== "");
  return [...findAddresses(installed), ...findOldVersions(installed), ...findMixedVersions(packages)];
}

/** @param {[string, { resolved?: string }][]} installed */
function findAddresses(installed) {
  return installed
    .filter(([, locked]) => locked.resolved !== undefined)
    .map(([folder]) => `${folder} is locked to an address; omit-lockfile-registry-resolved is set for this.`);
}

/** @param {[string, { version?: string }][]} installed */
function findOldVersions(installed) {
  return installed.flatMap(([folder, { version = "0" }]) => {
    const floor = floors[folder.slice(folder.lastIndexOf("node_modules/") + "node_modules/".length)];
    return floor && isLower(version, floor)
      ? [`${folder} ${version} is older than ${floor}, the lowest safe one.`]
      : [];
  });
}

/** @param {Record<string, { version?: string }>} packages */
function findMixedVersions(packages) {
  const versions = new Set(together.map((name) => packages[`node_modules/${name}`]?.version));
  return versions.size === 1
    ? []
    : [`${together.join(", ")} are not one version: ${[...versions].join(", ")}.`];
}

/**
 * @param {string} version
 * @param {string} floor
 */
function isLower(version, floor) {
  const [have, need] = [version, floor].map((text) => text.split(/[.-]/).map(Number));
  for (const [index, wanted] of (need ?? []).entries()) {
    const part = have?.[index] ?? 0;
    if (part !== wanted) return !(part > wanted);
  }
  // A prerelease of the floor comes before it.
  return version.includes("-");
}
