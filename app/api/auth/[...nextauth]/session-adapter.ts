import type { Adapter, AdapterSession, AdapterUser } from "next-auth/adapters";
import { endSession, readSession } from "@/lib/store/auth/session";

/**
 * next-auth's view of our sessions: it reads and ends them. People and sessions come into being through our own
 * use cases, so the rest of its interface stays empty.
 */
export const sessionAdapter: Adapter = {
  async getSessionAndUser(sessionToken) {
    const found = await readSession(sessionToken);
    if (!found) return null;
    const session: AdapterSession = { sessionToken, userId: found.userId, expires: found.expires };
    const user: AdapterUser = { id: found.userId, name: found.name, email: found.email, emailVerified: null };
    return { session, user };
  },
  async updateSession() {
    return null; // A session is not prolonged.
  },
  async deleteSession(sessionToken) {
    await endSession(sessionToken);
  },
};
