package clinic.stimshelf.audit;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class AuditEntries implements PanacheRepository<AuditEntry> {}
