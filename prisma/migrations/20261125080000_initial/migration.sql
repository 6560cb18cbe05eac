-- CreateEnum
CREATE TYPE "MemberRole" AS ENUM ('pianist', 'soloist', 'coach', 'reader');

-- CreateEnum
CREATE TYPE "SourceKind" AS ENUM ('reduction', 'full-score');

-- CreateEnum
CREATE TYPE "ProposalState" AS ENUM ('open', 'agreed', 'declined', 'withdrawn', 'superseded', 'reopened');

-- CreateEnum
CREATE TYPE "AnswerKind" AS ENUM ('agree', 'decline', 'counter', 'withdraw', 'reopen');

-- CreateEnum
CREATE TYPE "PerformanceKind" AS ENUM ('jury', 'examination', 'competition', 'recital', 'run-through');

-- CreateTable
CREATE TABLE "User" (
    "id" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "passwordHash" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "User_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Session" (
    "tokenHash" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "Session_pkey" PRIMARY KEY ("tokenHash")
);

-- CreateTable
CREATE TABLE "RateWindow" (
    "key" TEXT NOT NULL,
    "start" TIMESTAMPTZ(3) NOT NULL,
    "count" INTEGER NOT NULL,

    CONSTRAINT "RateWindow_pkey" PRIMARY KEY ("key","start")
);

-- CreateTable
CREATE TABLE "Piece" (
    "id" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "movement" TEXT,
    "composer" TEXT,
    "soloInstrument" TEXT,
    "limitSeconds" INTEGER,
    "longTuttiBars" INTEGER NOT NULL DEFAULT 16,
    "tempo" JSONB NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "changedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "roomEpoch" INTEGER NOT NULL DEFAULT 1,
    "roomSequence" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Piece_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Member" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "role" "MemberRole" NOT NULL,
    "joinedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Member_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Invitation" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "role" "MemberRole" NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "invitedById" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "acceptedById" TEXT,
    "acceptedAt" TIMESTAMPTZ(3),
    "revokedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Invitation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Source" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "kind" "SourceKind" NOT NULL,
    "fileName" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "byteLength" INTEGER NOT NULL,
    "partRoles" JSONB NOT NULL,
    "uploadedById" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Source_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SourceBytes" (
    "sourceId" TEXT NOT NULL,
    "bytes" BYTEA NOT NULL,

    CONSTRAINT "SourceBytes_pkey" PRIMARY KEY ("sourceId")
);

-- CreateTable
CREATE TABLE "Proposal" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "terms" JSONB NOT NULL,
    "termsHash" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "state" "ProposalState" NOT NULL DEFAULT 'open',
    "proposedById" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "supersedesId" TEXT,

    CONSTRAINT "Proposal_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Answer" (
    "id" TEXT NOT NULL,
    "proposalId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "answer" "AnswerKind" NOT NULL,
    "reason" TEXT NOT NULL,
    "termsHash" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Answer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Approval" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "contentHash" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "endedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Approval_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Edition" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "content" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "previousHash" TEXT,
    "frozenAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Edition_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "EditionApproval" (
    "editionId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" "MemberRole" NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "EditionApproval_pkey" PRIMARY KEY ("editionId","userId")
);

-- CreateTable
CREATE TABLE "EditionProposal" (
    "editionId" TEXT NOT NULL,
    "proposalId" TEXT NOT NULL,

    CONSTRAINT "EditionProposal_pkey" PRIMARY KEY ("editionId","proposalId")
);

-- CreateTable
CREATE TABLE "Performance" (
    "id" TEXT NOT NULL,
    "pieceId" TEXT NOT NULL,
    "editionId" TEXT NOT NULL,
    "kind" "PerformanceKind" NOT NULL,
    "name" TEXT NOT NULL,
    "on" DATE NOT NULL,
    "place" TEXT NOT NULL,
    "limitSeconds" INTEGER,
    "plannedSeconds" DOUBLE PRECISION NOT NULL,
    "realSeconds" DOUBLE PRECISION,
    "remarks" TEXT NOT NULL,
    "loggedById" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Performance_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "RoomUpdate" (
    "pieceId" TEXT NOT NULL,
    "sequence" INTEGER NOT NULL,
    "epoch" INTEGER NOT NULL,
    "update" BYTEA NOT NULL,
    "userId" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "RoomUpdate_pkey" PRIMARY KEY ("pieceId","sequence")
);

-- CreateTable
CREATE TABLE "RoomSnapshot" (
    "pieceId" TEXT NOT NULL,
    "epoch" INTEGER NOT NULL,
    "sequence" INTEGER NOT NULL,
    "state" BYTEA NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "RoomSnapshot_pkey" PRIMARY KEY ("pieceId","epoch")
);

-- CreateTable
CREATE TABLE "Engraving" (
    "pieceId" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "rendererVersion" TEXT NOT NULL,
    "summary" JSONB NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Engraving_pkey" PRIMARY KEY ("pieceId","key")
);

-- CreateTable
CREATE TABLE "EngravedSystem" (
    "pieceId" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "index" INTEGER NOT NULL,
    "svg" BYTEA NOT NULL,

    CONSTRAINT "EngravedSystem_pkey" PRIMARY KEY ("pieceId","key","index")
);

-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" BIGSERIAL NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "pieceId" TEXT,
    "userId" TEXT,
    "what" TEXT NOT NULL,
    "about" JSONB NOT NULL,

    CONSTRAINT "AuditEntry_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "User_email_key" ON "User"("email");

-- CreateIndex
CREATE INDEX "Session_userId_idx" ON "Session"("userId");

-- CreateIndex
CREATE INDEX "Session_expires_idx" ON "Session"("expires");

-- CreateIndex
CREATE INDEX "RateWindow_start_idx" ON "RateWindow"("start");

-- CreateIndex
CREATE INDEX "Member_userId_idx" ON "Member"("userId");

-- CreateIndex
CREATE UNIQUE INDEX "Member_pieceId_userId_key" ON "Member"("pieceId", "userId");

-- CreateIndex
CREATE UNIQUE INDEX "Invitation_tokenHash_key" ON "Invitation"("tokenHash");

-- CreateIndex
CREATE INDEX "Invitation_pieceId_idx" ON "Invitation"("pieceId");

-- CreateIndex
CREATE UNIQUE INDEX "Source_pieceId_kind_hash_key" ON "Source"("pieceId", "kind", "hash");

-- CreateIndex
CREATE INDEX "Proposal_pieceId_number_idx" ON "Proposal"("pieceId", "number");

-- CreateIndex
CREATE INDEX "Answer_proposalId_idx" ON "Answer"("proposalId");

-- CreateIndex
CREATE INDEX "Approval_pieceId_contentHash_idx" ON "Approval"("pieceId", "contentHash");

-- CreateIndex
CREATE UNIQUE INDEX "Edition_pieceId_number_key" ON "Edition"("pieceId", "number");

-- CreateIndex
CREATE INDEX "EditionProposal_proposalId_idx" ON "EditionProposal"("proposalId");

-- CreateIndex
CREATE INDEX "Performance_pieceId_on_idx" ON "Performance"("pieceId", "on");

-- CreateIndex
CREATE INDEX "AuditEntry_pieceId_at_idx" ON "AuditEntry"("pieceId", "at");

-- AddForeignKey
ALTER TABLE "Session" ADD CONSTRAINT "Session_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Member" ADD CONSTRAINT "Member_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Member" ADD CONSTRAINT "Member_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invitation" ADD CONSTRAINT "Invitation_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invitation" ADD CONSTRAINT "Invitation_invitedById_fkey" FOREIGN KEY ("invitedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Invitation" ADD CONSTRAINT "Invitation_acceptedById_fkey" FOREIGN KEY ("acceptedById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Source" ADD CONSTRAINT "Source_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Source" ADD CONSTRAINT "Source_uploadedById_fkey" FOREIGN KEY ("uploadedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SourceBytes" ADD CONSTRAINT "SourceBytes_sourceId_fkey" FOREIGN KEY ("sourceId") REFERENCES "Source"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_proposedById_fkey" FOREIGN KEY ("proposedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Proposal" ADD CONSTRAINT "Proposal_supersedesId_fkey" FOREIGN KEY ("supersedesId") REFERENCES "Proposal"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Answer" ADD CONSTRAINT "Answer_proposalId_fkey" FOREIGN KEY ("proposalId") REFERENCES "Proposal"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Answer" ADD CONSTRAINT "Answer_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Approval" ADD CONSTRAINT "Approval_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Approval" ADD CONSTRAINT "Approval_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Edition" ADD CONSTRAINT "Edition_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EditionApproval" ADD CONSTRAINT "EditionApproval_editionId_fkey" FOREIGN KEY ("editionId") REFERENCES "Edition"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EditionApproval" ADD CONSTRAINT "EditionApproval_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EditionProposal" ADD CONSTRAINT "EditionProposal_editionId_fkey" FOREIGN KEY ("editionId") REFERENCES "Edition"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EditionProposal" ADD CONSTRAINT "EditionProposal_proposalId_fkey" FOREIGN KEY ("proposalId") REFERENCES "Proposal"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Performance" ADD CONSTRAINT "Performance_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Performance" ADD CONSTRAINT "Performance_editionId_fkey" FOREIGN KEY ("editionId") REFERENCES "Edition"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Performance" ADD CONSTRAINT "Performance_loggedById_fkey" FOREIGN KEY ("loggedById") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoomUpdate" ADD CONSTRAINT "RoomUpdate_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoomUpdate" ADD CONSTRAINT "RoomUpdate_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RoomSnapshot" ADD CONSTRAINT "RoomSnapshot_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Engraving" ADD CONSTRAINT "Engraving_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EngravedSystem" ADD CONSTRAINT "EngravedSystem_pieceId_key_fkey" FOREIGN KEY ("pieceId", "key") REFERENCES "Engraving"("pieceId", "key") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "AuditEntry" ADD CONSTRAINT "AuditEntry_pieceId_fkey" FOREIGN KEY ("pieceId") REFERENCES "Piece"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "AuditEntry" ADD CONSTRAINT "AuditEntry_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- What the schema language cannot say. Prisma compares none of the following, so the schema stays in step.

-- A piece has at most one pianist and one soloist at a time.
CREATE UNIQUE INDEX "Member_one_of_each_player" ON "Member" ("pieceId", "role")
  WHERE "removedAt" IS NULL AND "role" IN ('pianist', 'soloist');

-- The log of a room is counted without gaps from 1; epochs and sequences are never negative.
ALTER TABLE "Piece" ADD CONSTRAINT "Piece_room_counts" CHECK ("roomEpoch" >= 1 AND "roomSequence" >= 0);

-- An edition's hash is that of the very text stored beside it.
ALTER TABLE "Edition" ADD CONSTRAINT "Edition_hash_of_content"
  CHECK ("hash" = encode(sha256(convert_to("content", 'UTF8')), 'hex'));

-- Editions are numbered without gaps, and each names the hash of the one before it.
CREATE FUNCTION check_edition_follows() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  last RECORD;
BEGIN
  SELECT "number", "hash" INTO last FROM "Edition"
    WHERE "pieceId" = NEW."pieceId" ORDER BY "number" DESC LIMIT 1;
  IF NEW."number" IS DISTINCT FROM COALESCE(last."number", 0) + 1
     OR NEW."previousHash" IS DISTINCT FROM last."hash" THEN
    RAISE EXCEPTION 'edition % does not follow edition % of this piece', NEW."number", COALESCE(last."number", 0);
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "Edition_follows" BEFORE INSERT ON "Edition"
  FOR EACH ROW EXECUTE FUNCTION check_edition_follows();

-- What was frozen, answered or recorded is never changed and never deleted.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'rows of "%" are never changed or deleted', TG_TABLE_NAME;
END $$;
DO $$
DECLARE
  kept TEXT;
BEGIN
  FOREACH kept IN ARRAY ARRAY['Edition', 'EditionApproval', 'EditionProposal', 'Answer', 'AuditEntry', 'RoomUpdate'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()',
      kept || '_is_kept', kept);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()',
      kept || '_is_kept_whole', kept);
  END LOOP;
END $$;

-- The terms of a proposal, and who put it forward, never change: other terms are another proposal.
CREATE FUNCTION keep_terms() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (NEW."pieceId", NEW."number", NEW."terms", NEW."termsHash", NEW."reason", NEW."proposedById", NEW."createdAt", NEW."supersedesId")
     IS DISTINCT FROM
     (OLD."pieceId", OLD."number", OLD."terms", OLD."termsHash", OLD."reason", OLD."proposedById", OLD."createdAt", OLD."supersedesId") THEN
    RAISE EXCEPTION 'the terms of a proposal are never changed';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "Proposal_terms_are_kept" BEFORE UPDATE ON "Proposal"
  FOR EACH ROW EXECUTE FUNCTION keep_terms();
CREATE TRIGGER "Proposal_is_kept" BEFORE DELETE ON "Proposal"
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
