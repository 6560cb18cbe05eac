-- CreateEnum
CREATE TYPE "PrintReader" AS ENUM ('pianist', 'soloist');

-- AlterTable
ALTER TABLE "Edition" ADD COLUMN     "rendererVersion" TEXT;

-- AlterTable
ALTER TABLE "Member" ADD COLUMN     "archivedAs" JSONB;

-- AlterTable
ALTER TABLE "Performance" ADD COLUMN     "result" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "sections" JSONB,
ADD COLUMN     "startsAt" TEXT;

-- AlterTable
ALTER TABLE "Piece" ADD COLUMN     "archived" JSONB,
ADD COLUMN     "branchName" TEXT,
ADD COLUMN     "branchOfId" TEXT,
ADD COLUMN     "deletedAt" TIMESTAMPTZ(3),
ADD COLUMN     "deletedById" TEXT;

-- AlterTable
ALTER TABLE "User" ADD COLUMN     "removedAt" TIMESTAMPTZ(3);

-- CreateTable
CREATE TABLE "ReaderLink" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "editionId" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "forWhom" TEXT NOT NULL,
    "madeById" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "revokedAt" TIMESTAMPTZ(3),
    "revokedById" TEXT,
    "openedAt" TIMESTAMPTZ(3),

    CONSTRAINT "ReaderLink_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PageBreak" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "reader" "PrintReader" NOT NULL,
    "paper" TEXT NOT NULL,
    "sourceHash" TEXT NOT NULL,
    "barIndex" INTEGER NOT NULL,
    "pinnedById" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" TIMESTAMPTZ(3),

    CONSTRAINT "PageBreak_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Programme" (
    "id" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "on" DATE NOT NULL,
    "startsAt" TEXT,
    "place" TEXT NOT NULL,
    "limitSeconds" INTEGER,
    "remarks" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "changedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Programme_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ProgrammeItem" (
    "id" TEXT NOT NULL,
    "programmeId" TEXT NOT NULL,
    "place" INTEGER NOT NULL,
    "performanceId" TEXT,
    "title" TEXT,
    "plannedSeconds" DOUBLE PRECISION,
    "realSeconds" DOUBLE PRECISION,
    "gapSeconds" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "ProgrammeItem_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "ReaderLink_tokenHash_key" ON "ReaderLink"("tokenHash");

-- CreateIndex
CREATE INDEX "ReaderLink_pieceId_idx" ON "ReaderLink"("pieceId");

-- CreateIndex
CREATE INDEX "PageBreak_pieceId_reader_paper_idx" ON "PageBreak"("pieceId", "reader", "paper");

-- CreateIndex
CREATE INDEX "Programme_ownerId_idx" ON "Programme"("ownerId");

-- CreateIndex
CREATE INDEX "ProgrammeItem_performanceId_idx" ON "ProgrammeItem"("performanceId");

-- CreateIndex
CREATE UNIQUE INDEX "ProgrammeItem_programmeId_place_key" ON "ProgrammeItem"("programmeId", "place");

-- CreateIndex
CREATE INDEX "Piece_branchOfId_idx" ON "Piece"("branchOfId");

-- CreateIndex
CREATE INDEX "Piece_deletedAt_idx" ON "Piece"("deletedAt");

-- AddForeignKey
ALTER TABLE "Piece" ADD CONSTRAINT "Piece_branchOfId_fkey" FOREIGN KEY ("branchOfId") REFERENCES "Piece"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Piece" ADD CONSTRAINT "Piece_deletedById_fkey" FOREIGN KEY ("deletedById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReaderLink" ADD CONSTRAINT "ReaderLink_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReaderLink" ADD CONSTRAINT "ReaderLink_editionId_fkey" FOREIGN KEY ("editionId") REFERENCES "Edition"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReaderLink" ADD CONSTRAINT "ReaderLink_madeById_fkey" FOREIGN KEY ("madeById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ReaderLink" ADD CONSTRAINT "ReaderLink_revokedById_fkey" FOREIGN KEY ("revokedById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PageBreak" ADD CONSTRAINT "PageBreak_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PageBreak" ADD CONSTRAINT "PageBreak_pinnedById_fkey" FOREIGN KEY ("pinnedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Programme" ADD CONSTRAINT "Programme_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ProgrammeItem" ADD CONSTRAINT "ProgrammeItem_programmeId_fkey" FOREIGN KEY ("programmeId") REFERENCES "Programme"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ProgrammeItem" ADD CONSTRAINT "ProgrammeItem_performanceId_fkey" FOREIGN KEY ("performanceId") REFERENCES "Performance"("id") ON DELETE SET NULL ON UPDATE CASCADE;
