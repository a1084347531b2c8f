package clinic.stimshelf.access;

import io.quarkus.security.identity.request.AuthenticationRequest;
import io.quarkus.security.identity.request.BaseAuthenticationRequest;

/** What a call shows to be let in. */
abstract class Presented extends BaseAuthenticationRequest implements AuthenticationRequest {

  /** The cookie of a browser; a call the page makes by itself is no sign of life. */
  static final class Cookie extends Presented {
    final String token;
    final boolean background;

    Cookie(String token, boolean background) {
      this.token = token;
      this.background = background;
    }
  }

  /** A script's access key. */
  static final class Key extends Presented {
    final String secret;

    Key(String secret) {
      this.secret = secret;
    }
  }

  /** Name and password with the call itself. */
  static final class NameAndPassword extends Presented {
    final String username;
    final String password;
    final String address;

    NameAndPassword(String username, String password, String address) {
      this.username = username;
      this.password = password;
      this.address = address;
    }
  }
}
