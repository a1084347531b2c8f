package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.Check;

/**
 * A unit that can be used all through the plan.
 *
 * @param id unique among the units of a plan
 * @param channels that it has, 1 or more
 */
public record PlanUnit(String id, int channels) {

  public PlanUnit {
    Check.within("channels", channels, 1, 1_000_000_000);
  }
}
