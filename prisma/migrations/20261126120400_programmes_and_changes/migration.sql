-- AlterTable
ALTER TABLE "Performance" ADD COLUMN     "changedAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
ADD COLUMN     "removedAt" TIMESTAMPTZ(3),
ADD COLUMN     "revision" INTEGER NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "Programme" ADD COLUMN     "kind" "PerformanceKind" NOT NULL DEFAULT 'recital',
ADD COLUMN     "revision" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "stopsBetween" BOOLEAN NOT NULL DEFAULT false;
