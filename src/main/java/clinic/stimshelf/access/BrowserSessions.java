package clinic.stimshelf.access;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class BrowserSessions implements PanacheRepository<BrowserSession> {}
