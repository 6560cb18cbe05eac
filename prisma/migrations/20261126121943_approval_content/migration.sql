-- AlterTable
ALTER TABLE "Approval" ADD COLUMN     "content" TEXT;
