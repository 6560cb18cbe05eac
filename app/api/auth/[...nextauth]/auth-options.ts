import type { NextAuthOptions } from "next-auth";
import CredentialsProvider from "next-auth/providers/credentials";
import { addressOf } from "@/app/_data/client-address";
import { sessionSeconds, startSession } from "@/lib/store/auth/session";
import { signIn } from "@/lib/store/auth/sign-in";
import { sayStoreProblem } from "@/lib/store/store-problem";
import { sessionAdapter } from "./session-adapter";

/** next-auth over our own accounts and sessions; the secret comes from `NEXTAUTH_SECRET`. */
export const authOptions: NextAuthOptions = {
  // An adapter makes next-auth keep sessions in the database. Saying `strategy: "database"` as well would make it
  // refuse a configuration whose only provider is credentials.
  adapter: sessionAdapter,
  // Due for an update only when it is over: sessions are not prolonged.
  session: { maxAge: sessionSeconds, updateAge: sessionSeconds },
  pages: { signIn: "/sign-in", error: "/sign-in" },
  providers: [
    CredentialsProvider({
      credentials: { email: { type: "email" }, password: { type: "password" } },
      async authorize(credentials, request) {
        const result = await signIn(credentials, addressOf(request.headers?.["x-forwarded-for"]));
        if (result.ok) return { id: result.value.userId, name: result.value.name };
        throw new Error(sayStoreProblem(result.problem));
      },
    }),
  ],
  // For credentials next-auth writes a signed token into the cookie even with an adapter. What it is to write is
  // made here: the token of a new session in the database, so that deleting the row signs out at once.
  jwt: {
    async encode({ token }) {
      if (!token?.sub) throw new RangeError("A session needs a person");
      return (await startSession(token.sub)).token;
    },
  },
  callbacks: {
    session: ({ session, user }) => ({
      expires: session.expires,
      user: { id: user.id, name: user.name },
    }),
  },
};
