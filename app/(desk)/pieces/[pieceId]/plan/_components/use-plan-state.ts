"use client";

import { useSearchParams } from "next/navigation";
import { type Dispatch, useReducer } from "react";
import { useAddress } from "@/app/_ui/use-address";
import { readPlanAddress, writePlanAddress } from "./plan-address";
import { movePlan, type PlanMove } from "./plan-state";
import type { PlanState } from "./wishes";

/** What is wished for and looked at. It begins as the address says, and the address follows. */
export function usePlanState(): [PlanState, Dispatch<PlanMove>] {
  const [state, move] = useReducer(movePlan, useSearchParams(), readPlanAddress);
  useAddress(writePlanAddress(state));
  return [state, move];
}
