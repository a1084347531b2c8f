package clinic.stimshelf.web;

/** The three roles, as scripts and accounts spell them. */
public final class Roles {
  public static final String FRONT_DESK = "front-desk";
  public static final String THERAPIST = "therapist";
  public static final String MANAGER = "manager";

  private Roles() {}
}
