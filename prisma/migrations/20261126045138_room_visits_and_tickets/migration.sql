-- DropForeignKey
ALTER TABLE "RoomUpdate" DROP CONSTRAINT "RoomUpdate_userId_fkey";

-- AlterTable
ALTER TABLE "RoomUpdate" ALTER COLUMN "userId" DROP NOT NULL;

-- AlterTable
ALTER TABLE "User" ADD COLUMN     "wantsDigest" BOOLEAN NOT NULL DEFAULT true;

-- CreateTable
CREATE TABLE "RoomTicket" (
    "tokenHash" TEXT NOT NULL,
    "sessionHash" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "expires" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "RoomTicket_pkey" PRIMARY KEY ("tokenHash")
);

-- CreateTable
CREATE TABLE "RoomVisit" (
    "pieceId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "sequence" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "RoomVisit_pkey" PRIMARY KEY ("pieceId","userId")
);

-- CreateTable
CREATE TABLE "CommentSeen" (
    "pieceId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "commentId" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "CommentSeen_pkey" PRIMARY KEY ("pieceId","userId","commentId")
);

-- CreateTable
CREATE TABLE "Digest" (
    "pieceId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "sequence" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "Digest_pkey" PRIMARY KEY ("pieceId","userId")
);

-- CreateIndex
CREATE INDEX "RoomTicket_sessionHash_idx" ON "RoomTicket"("sessionHash");

-- CreateIndex
CREATE INDEX "RoomTicket_expires_idx" ON "RoomTicket"("expires");

-- AddForeignKey
ALTER TABLE "RoomTicket" ADD CONSTRAINT "RoomTicket_sessionHash_fkey" FOREIGN KEY ("sessionHash") REFERENCES "Session"("tokenHash") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoomTicket" ADD CONSTRAINT "RoomTicket_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoomUpdate" ADD CONSTRAINT "RoomUpdate_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoomVisit" ADD CONSTRAINT "RoomVisit_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoomVisit" ADD CONSTRAINT "RoomVisit_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CommentSeen" ADD CONSTRAINT "CommentSeen_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CommentSeen" ADD CONSTRAINT "CommentSeen_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Digest" ADD CONSTRAINT "Digest_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Digest" ADD CONSTRAINT "Digest_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
