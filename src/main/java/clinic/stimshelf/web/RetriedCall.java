package clinic.stimshelf.web;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.annotation.Priority;
import jakarta.interceptor.AroundInvoke;
import jakarta.interceptor.Interceptor;
import jakarta.interceptor.InvocationContext;

/** Runs before the interceptor that begins a transaction (which has priority 200). */
@Retried
@Interceptor
@Priority(Interceptor.Priority.PLATFORM_BEFORE + 50)
class RetriedCall {

  @AroundInvoke
  Object again(InvocationContext call) throws Exception {
    return QuarkusTransaction.isActive() ? call.proceed() : Retry.run(call::proceed);
  }
}
