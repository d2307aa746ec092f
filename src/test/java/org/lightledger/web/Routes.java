package org.lightledger.web;

import io.javalin.Javalin;
import io.javalin.http.HandlerType;
import java.util.List;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;

/** The routes that a listener has, asked of the listener itself, so that none is forgotten. */
final class Routes {
  private static final Pattern PARAMETER = Pattern.compile("\\{[^}]+\\}");

  private Routes() {}

  /** One route, such as POST /spots/{id}. */
  record Route(HandlerType method, String path) {
    /** Its path with something in the place of each parameter. */
    String with(UnaryOperator<String> value) {
      return PARAMETER
          .matcher(path)
          .replaceAll(
              match ->
                  java.util.regex.Matcher.quoteReplacement(
                      value.apply(match.group().substring(1, match.group().length() - 1))));
    }

    String with(String value) {
      return with(name -> value);
    }

    boolean takesParameters() {
      return path.contains("{");
    }

    boolean reads() {
      return method.equals(HandlerType.GET) || method.equals(HandlerType.HEAD);
    }

    @Override
    public String toString() {
      return method + " " + path;
    }
  }

  static List<Route> of(Javalin listener) {
    return listener.unsafe.internalRouter.allHttpHandlers().stream()
        .map(handler -> new Route(handler.endpoint.method, handler.endpoint.path))
        .filter(route -> route.method().isHttpMethod())
        .distinct()
        .toList();
  }

  static List<Route> reading(Javalin listener) {
    return of(listener).stream().filter(Route::reads).toList();
  }

  static List<Route> changing(Javalin listener) {
    return of(listener).stream().filter(route -> !route.reads()).toList();
  }
}
