import NextAuth from "next-auth";
import { authOptions } from "./auth-options";

const handler: (request: Request, context: unknown) => Promise<Response> = NextAuth(authOptions);

export { handler as GET, handler as POST };
