package clinic.stimshelf.web;

import java.util.Set;

/**
 * A page that stands in the navigation. A room declares one as a bean ({@code @Produces @Singleton}
 * or a class that implements this), and it appears for the roles named.
 */
public interface Way {

  /** Where it stands: smaller comes first. */
  int order();

  String label();

  /** Path, which also begins the paths of the pages that belong to it. */
  String href();

  /** Roles that have a use for it. */
  Set<String> roles();
}
