-- CreateEnum
CREATE TYPE "ProposalKind" AS ENUM ('cut', 'rewrite');

-- CreateEnum
CREATE TYPE "RewriteSharing" AS ENUM ('only me', 'told', 'asked');

-- CreateEnum
CREATE TYPE "RewriteDeed" AS ENUM ('kept', 'shared', 'replaced', 'taken off', 'brought back');

-- DropIndex
DROP INDEX "Proposal_pieceId_number_idx";

-- AlterTable
ALTER TABLE "Proposal" ADD COLUMN     "kind" "ProposalKind" NOT NULL DEFAULT 'cut';

-- AlterTable
ALTER TABLE "User" ADD COLUMN     "hands" JSONB,
ADD COLUMN     "handsChangedAt" TIMESTAMPTZ(3);

-- CreateTable
CREATE TABLE "Rewrite" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "authorId" TEXT NOT NULL,
    "terms" JSONB NOT NULL,
    "termsHash" TEXT NOT NULL,
    "sharing" "RewriteSharing" NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replacesId" TEXT,
    "replacedAt" TIMESTAMPTZ(3),
    "takenOffAt" TIMESTAMPTZ(3),
    "proposalId" TEXT,

    CONSTRAINT "Rewrite_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "RewriteEvent" (
    "id" TEXT NOT NULL,
    "rewriteId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "what" "RewriteDeed" NOT NULL,
    "sharing" "RewriteSharing" NOT NULL,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "RewriteEvent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PracticeEntry" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "sourceHash" TEXT NOT NULL,
    "fromBar" INTEGER NOT NULL,
    "toBar" INTEGER NOT NULL,
    "tempo" JSONB NOT NULL,
    "note" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" TIMESTAMPTZ(3),

    CONSTRAINT "PracticeEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CueHint" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "instrument" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "authorId" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "CueHint_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "EditionRewrite" (
    "editionId" TEXT NOT NULL,
    "rewriteId" TEXT NOT NULL,

    CONSTRAINT "EditionRewrite_pkey" PRIMARY KEY ("editionId","rewriteId")
);

-- CreateIndex
CREATE UNIQUE INDEX "Rewrite_proposalId_key" ON "Rewrite"("proposalId");

-- CreateIndex
CREATE INDEX "Rewrite_pieceId_number_idx" ON "Rewrite"("pieceId", "number");

-- CreateIndex
CREATE INDEX "RewriteEvent_rewriteId_idx" ON "RewriteEvent"("rewriteId");

-- CreateIndex
CREATE INDEX "PracticeEntry_pieceId_userId_idx" ON "PracticeEntry"("pieceId", "userId");

-- CreateIndex
CREATE INDEX "CueHint_pieceId_instrument_at_idx" ON "CueHint"("pieceId", "instrument", "at");

-- CreateIndex
CREATE INDEX "EditionRewrite_rewriteId_idx" ON "EditionRewrite"("rewriteId");

-- CreateIndex
CREATE INDEX "Proposal_pieceId_kind_number_idx" ON "Proposal"("pieceId", "kind", "number");

-- AddForeignKey
ALTER TABLE "Rewrite" ADD CONSTRAINT "Rewrite_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Rewrite" ADD CONSTRAINT "Rewrite_authorId_fkey" FOREIGN KEY ("authorId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Rewrite" ADD CONSTRAINT "Rewrite_replacesId_fkey" FOREIGN KEY ("replacesId") REFERENCES "Rewrite"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Rewrite" ADD CONSTRAINT "Rewrite_proposalId_fkey" FOREIGN KEY ("proposalId") REFERENCES "Proposal"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RewriteEvent" ADD CONSTRAINT "RewriteEvent_rewriteId_fkey" FOREIGN KEY ("rewriteId") REFERENCES "Rewrite"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RewriteEvent" ADD CONSTRAINT "RewriteEvent_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PracticeEntry" ADD CONSTRAINT "PracticeEntry_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PracticeEntry" ADD CONSTRAINT "PracticeEntry_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CueHint" ADD CONSTRAINT "CueHint_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CueHint" ADD CONSTRAINT "CueHint_authorId_fkey" FOREIGN KEY ("authorId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EditionRewrite" ADD CONSTRAINT "EditionRewrite_editionId_fkey" FOREIGN KEY ("editionId") REFERENCES "Edition"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EditionRewrite" ADD CONSTRAINT "EditionRewrite_rewriteId_fkey" FOREIGN KEY ("rewriteId") REFERENCES "Rewrite"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What kind of thing was agreed to never changes either.
CREATE OR REPLACE FUNCTION keep_terms() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (NEW."pieceId", NEW."kind", NEW."number", NEW."terms", NEW."termsHash", NEW."reason", NEW."why", NEW."proposedById", NEW."createdAt", NEW."supersedesId")
     IS DISTINCT FROM
     (OLD."pieceId", OLD."kind", OLD."number", OLD."terms", OLD."termsHash", OLD."reason", OLD."why", OLD."proposedById", OLD."createdAt", OLD."supersedesId") THEN
    RAISE EXCEPTION 'the terms of a proposal are never changed';
  END IF;
  RETURN NEW;
END $$;

-- Whether a version of a rewrite was for the eyes of somebody only whose account is gone.
CREATE FUNCTION is_private_of_nobody(rewrite_id TEXT) RETURNS BOOLEAN LANGUAGE sql STABLE AS $$
  SELECT EXISTS (
    SELECT 1 FROM "Rewrite" AS kept JOIN "User" AS author ON author."id" = kept."authorId"
    WHERE kept."id" = rewrite_id AND kept."sharing" = 'only me' AND kept."proposalId" IS NULL
      AND author."removedAt" IS NOT NULL
  )
$$;

-- A version of a rewrite has the same notes for good, and is deleted only with its piece or, when nobody else ever saw
-- it, after the account of its author.
CREATE FUNCTION keep_rewrite() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' THEN
    IF is_private_of_nobody(to_jsonb(OLD) ->> (CASE TG_TABLE_NAME WHEN 'Rewrite' THEN 'id' ELSE 'rewriteId' END))
       OR is_being_purged(TG_TABLE_NAME, to_jsonb(OLD)) THEN
      RETURN OLD;
    END IF;
    RAISE EXCEPTION 'rows of "%" are never deleted', TG_TABLE_NAME;
  END IF;
  IF TG_TABLE_NAME <> 'Rewrite' THEN
    RAISE EXCEPTION 'rows of "%" are never changed', TG_TABLE_NAME;
  END IF;
  IF (NEW."pieceId", NEW."number", NEW."authorId", NEW."terms", NEW."termsHash", NEW."createdAt")
     IS DISTINCT FROM
     (OLD."pieceId", OLD."number", OLD."authorId", OLD."terms", OLD."termsHash", OLD."createdAt") THEN
    RAISE EXCEPTION 'the notes of a rewrite are never changed';
  END IF;
  RETURN NEW;
END $$;

CREATE TRIGGER "Rewrite_is_kept" BEFORE UPDATE OR DELETE ON "Rewrite"
  FOR EACH ROW EXECUTE FUNCTION keep_rewrite();
CREATE TRIGGER "RewriteEvent_is_kept" BEFORE UPDATE OR DELETE ON "RewriteEvent"
  FOR EACH ROW EXECUTE FUNCTION keep_rewrite();
CREATE TRIGGER "EditionRewrite_is_kept" BEFORE UPDATE OR DELETE ON "EditionRewrite"
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "CueHint_is_kept" BEFORE UPDATE OR DELETE ON "CueHint"
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "Rewrite_is_kept_whole" BEFORE TRUNCATE ON "Rewrite"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "RewriteEvent_is_kept_whole" BEFORE TRUNCATE ON "RewriteEvent"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "EditionRewrite_is_kept_whole" BEFORE TRUNCATE ON "EditionRewrite"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER "CueHint_is_kept_whole" BEFORE TRUNCATE ON "CueHint"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- Whether a row may be deleted because its piece is being purged.
CREATE OR REPLACE FUNCTION is_being_purged(kept TEXT, kept_row JSONB) RETURNS BOOLEAN LANGUAGE plpgsql STABLE AS $$
DECLARE
  purged TEXT := current_setting('colla.purges_piece', true);
BEGIN
  PERFORM 1 FROM "Piece" WHERE "id" = purged AND "deletedAt" < now() - interval '30 days';
  IF NOT FOUND THEN
    RETURN false;
  END IF;
  RETURN purged IS NOT DISTINCT FROM CASE
    WHEN kept = 'Answer' THEN (SELECT "pieceId" FROM "Proposal" WHERE "id" = kept_row ->> 'proposalId')
    WHEN kept = 'RestNeedEvent' THEN (SELECT "pieceId" FROM "RestNeed" WHERE "id" = kept_row ->> 'needId')
    WHEN kept = 'RewriteEvent' THEN (SELECT "pieceId" FROM "Rewrite" WHERE "id" = kept_row ->> 'rewriteId')
    WHEN kept IN ('EditionApproval', 'EditionProposal', 'EditionRewrite')
      THEN (SELECT "pieceId" FROM "Edition" WHERE "id" = kept_row ->> 'editionId')
    ELSE kept_row ->> 'pieceId'
  END;
END $$;

-- Deletes a piece for good, with everything that belongs to it, when it was deleted more than 30 days ago. People who were
-- names in it only (it had come in as an archive) go with it; accounts stay. In a programme, what was played of it stays
-- as a line of words with its length.
-- Answers false, and does nothing, for any other piece.
CREATE OR REPLACE FUNCTION purge_deleted_piece(piece_id TEXT) RETURNS BOOLEAN LANGUAGE plpgsql AS $$
DECLARE
  names TEXT[];
BEGIN
  PERFORM 1 FROM "Piece" WHERE "id" = piece_id AND "deletedAt" < now() - interval '30 days' FOR UPDATE;
  IF NOT FOUND THEN
    RETURN false;
  END IF;
  PERFORM set_config('colla.purges_piece', piece_id, true);

  UPDATE "ProgrammeItem" AS item
    SET "title" = COALESCE(item."title", piece."title"),
        "plannedSeconds" = COALESCE(item."plannedSeconds", played."plannedSeconds"),
        "realSeconds" = COALESCE(item."realSeconds", played."realSeconds"),
        "performanceId" = NULL
    FROM "Performance" AS played JOIN "Piece" AS piece ON piece."id" = played."pieceId"
    WHERE item."performanceId" = played."id" AND played."pieceId" = piece_id;

  DELETE FROM "Engraving" WHERE "pieceId" = piece_id;
  DELETE FROM "RoomTicket" WHERE "pieceId" = piece_id;
  DELETE FROM "RoomVisit" WHERE "pieceId" = piece_id;
  DELETE FROM "CommentSeen" WHERE "pieceId" = piece_id;
  DELETE FROM "Digest" WHERE "pieceId" = piece_id;
  DELETE FROM "RoomSnapshot" WHERE "pieceId" = piece_id;
  DELETE FROM "RoomUpdate" WHERE "pieceId" = piece_id;
  DELETE FROM "PageBreak" WHERE "pieceId" = piece_id;
  DELETE FROM "ReaderLink" WHERE "pieceId" = piece_id;
  DELETE FROM "Performance" WHERE "pieceId" = piece_id;
  DELETE FROM "EditionApproval" WHERE "editionId" IN (SELECT "id" FROM "Edition" WHERE "pieceId" = piece_id);
  DELETE FROM "EditionProposal" WHERE "editionId" IN (SELECT "id" FROM "Edition" WHERE "pieceId" = piece_id);
  DELETE FROM "EditionRewrite" WHERE "editionId" IN (SELECT "id" FROM "Edition" WHERE "pieceId" = piece_id);
  DELETE FROM "Edition" WHERE "pieceId" = piece_id;
  DELETE FROM "RewriteEvent" WHERE "rewriteId" IN (SELECT "id" FROM "Rewrite" WHERE "pieceId" = piece_id);
  DELETE FROM "Rewrite" WHERE "pieceId" = piece_id;
  DELETE FROM "PracticeEntry" WHERE "pieceId" = piece_id;
  DELETE FROM "CueHint" WHERE "pieceId" = piece_id;
  DELETE FROM "Answer" WHERE "proposalId" IN (SELECT "id" FROM "Proposal" WHERE "pieceId" = piece_id);
  DELETE FROM "Proposal" WHERE "pieceId" = piece_id;
  DELETE FROM "RestNeedEvent" WHERE "needId" IN (SELECT "id" FROM "RestNeed" WHERE "pieceId" = piece_id);
  DELETE FROM "RestNeed" WHERE "pieceId" = piece_id;
  DELETE FROM "Approval" WHERE "pieceId" = piece_id;
  DELETE FROM "Invitation" WHERE "pieceId" = piece_id;
  DELETE FROM "SourceBytes" WHERE "sourceId" IN (SELECT "id" FROM "Source" WHERE "pieceId" = piece_id);
  DELETE FROM "Source" WHERE "pieceId" = piece_id;
  DELETE FROM "AuditEntry" WHERE "pieceId" = piece_id;
  SELECT array_agg("userId") INTO names FROM "Member"
    WHERE "pieceId" = piece_id AND "archivedAs" ->> 'isClaimed' = 'false';
  DELETE FROM "Member" WHERE "pieceId" = piece_id;
  DELETE FROM "User" WHERE "id" = ANY (names) AND "removedAt" IS NOT NULL;
  DELETE FROM "Piece" WHERE "id" = piece_id;

  PERFORM set_config('colla.purges_piece', '', true);
  INSERT INTO "AuditEntry" ("what", "about") VALUES ('piece purged', jsonb_build_object('pieceId', piece_id));
  RETURN true;
END $$;
