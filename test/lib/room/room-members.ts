import type { RoomMember } from "@/lib/room/room-member";

export const pianist: RoomMember = { userId: "ines", name: "Ines Varga", role: "pianist" };
export const soloist: RoomMember = { userId: "tobias", name: "Tobias Lenk", role: "soloist" };
export const coach: RoomMember = { userId: "mara", name: "Mara Quint", role: "coach" };
export const reader: RoomMember = { userId: "page", name: "Page Turner", role: "reader" };
