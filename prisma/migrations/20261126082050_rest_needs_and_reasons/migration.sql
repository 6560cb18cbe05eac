-- CreateEnum
CREATE TYPE "RestNeedDeed" AS ENUM ('noted', 'changed', 'released', 'held again', 'removed', 'brought back');

-- AlterTable
ALTER TABLE "Member" ADD COLUMN     "breath" JSONB;

-- AlterTable
ALTER TABLE "Proposal" ADD COLUMN     "why" JSONB;

-- CreateTable
CREATE TABLE "RestNeed" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "notedById" TEXT NOT NULL,
    "terms" JSONB NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "changedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "releasedById" TEXT,
    "releasedAt" TIMESTAMPTZ(3),
    "removedAt" TIMESTAMPTZ(3),

    CONSTRAINT "RestNeed_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "RestNeedEvent" (
    "id" TEXT NOT NULL,
    "needId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "what" "RestNeedDeed" NOT NULL,
    "terms" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "RestNeedEvent_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "RestNeed_pieceId_idx" ON "RestNeed"("pieceId");

-- CreateIndex
CREATE INDEX "RestNeedEvent_needId_idx" ON "RestNeedEvent"("needId");

-- AddForeignKey
ALTER TABLE "RestNeed" ADD CONSTRAINT "RestNeed_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RestNeed" ADD CONSTRAINT "RestNeed_notedById_fkey" FOREIGN KEY ("notedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RestNeed" ADD CONSTRAINT "RestNeed_releasedById_fkey" FOREIGN KEY ("releasedById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RestNeedEvent" ADD CONSTRAINT "RestNeedEvent_needId_fkey" FOREIGN KEY ("needId") REFERENCES "RestNeed"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RestNeedEvent" ADD CONSTRAINT "RestNeedEvent_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A rest need may be changed and hidden, never deleted; what was done to it is never changed.
CREATE TRIGGER "RestNeed_is_kept" BEFORE DELETE ON "RestNeed"
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "RestNeed_is_kept_whole" BEFORE TRUNCATE ON "RestNeed"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "RestNeedEvent_is_kept" BEFORE UPDATE OR DELETE ON "RestNeedEvent"
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "RestNeedEvent_is_kept_whole" BEFORE TRUNCATE ON "RestNeedEvent"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- The reasons that the other player saw beside a proposal stay as they were, like its terms.
CREATE OR REPLACE FUNCTION keep_terms() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (NEW."pieceId", NEW."number", NEW."terms", NEW."termsHash", NEW."reason", NEW."why", NEW."proposedById", NEW."createdAt", NEW."supersedesId")
     IS DISTINCT FROM
     (OLD."pieceId", OLD."number", OLD."terms", OLD."termsHash", OLD."reason", OLD."why", OLD."proposedById", OLD."createdAt", OLD."supersedesId") THEN
    RAISE EXCEPTION 'the terms of a proposal are never changed';
  END IF;
  RETURN NEW;
END $$;
