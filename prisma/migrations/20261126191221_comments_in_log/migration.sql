-- AlterTable
ALTER TABLE "RoomUpdate" ADD COLUMN     "commentsDeleted" TEXT[],
ADD COLUMN     "commentsWritten" TEXT[];
