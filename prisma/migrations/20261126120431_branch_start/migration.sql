-- AlterTable
ALTER TABLE "Piece" ADD COLUMN     "branchStartId" TEXT;

-- AddForeignKey
ALTER TABLE "Piece" ADD CONSTRAINT "Piece_branchStartId_fkey" FOREIGN KEY ("branchStartId") REFERENCES "Edition"("id") ON DELETE SET NULL ON UPDATE CASCADE;
