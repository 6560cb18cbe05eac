"use client";

import { useSearchParams } from "next/navigation";
import { type Dispatch, useEffect, useReducer } from "react";
import { readPlanAddress, writePlanAddress } from "./plan-address";
import { movePlan, type PlanMove } from "./plan-state";
import type { PlanState } from "./wishes";

/** Browsers refuse addresses that change with every movement of a finger. */
const pauseMs = 250;

/** What is wished for and looked at. It begins as the address says, and the address follows. */
export function usePlanState(): [PlanState, Dispatch<PlanMove>] {
  const [state, move] = useReducer(movePlan, useSearchParams(), readPlanAddress);
  const address = writePlanAddress(state);
  useEffect(() => {
    const here = window.location;
    const timer = setTimeout(() => {
      const search = address === "" ? "" : `?${address}`;
      if (search !== here.search)
        window.history.replaceState(window.history.state, "", `${here.pathname}${search}`);
    }, pauseMs);
    return () => clearTimeout(timer);
  }, [address]);
  return [state, move];
}
