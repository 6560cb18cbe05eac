-- A piece that was deleted can be brought back for 30 days. After that it is purged, rows that are otherwise never deleted
-- among them: only by purge_deleted_piece, only such a piece, and only while that function is at it. It says so by a
-- setting of its transaction, colla.purges_piece, which names the piece; the triggers look at that and at the piece itself,
-- so the setting alone opens nothing.

-- Whether a row may be deleted because its piece is being purged.
CREATE FUNCTION is_being_purged(kept TEXT, kept_row JSONB) RETURNS BOOLEAN LANGUAGE plpgsql STABLE AS $$
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
    WHEN kept IN ('EditionApproval', 'EditionProposal')
      THEN (SELECT "pieceId" FROM "Edition" WHERE "id" = kept_row ->> 'editionId')
    ELSE kept_row ->> 'pieceId'
  END;
END $$;

CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' AND COALESCE(current_setting('colla.purges_piece', true), '') <> '' THEN
    IF is_being_purged(TG_TABLE_NAME, to_jsonb(OLD)) THEN
      RETURN OLD;
    END IF;
  END IF;
  RAISE EXCEPTION 'rows of "%" are never changed or deleted', TG_TABLE_NAME;
END $$;

-- Deletes a piece for good, with everything that belongs to it, when it was deleted more than 30 days ago. People who were
-- names in it only (it had come in as an archive) go with it; accounts stay. In a programme, what was played of it stays
-- as a line of words with its length.
-- Answers false, and does nothing, for any other piece.
CREATE FUNCTION purge_deleted_piece(piece_id TEXT) RETURNS BOOLEAN LANGUAGE plpgsql AS $$
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
  DELETE FROM "Edition" WHERE "pieceId" = piece_id;
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
