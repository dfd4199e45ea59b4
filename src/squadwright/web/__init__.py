"""The site: pages rendered on the server, one folder for each part.

How to add a page
-----------------
1. Route. ``web/<part>/routes.py`` holds plain ``def`` functions ``(request) -> Response`` and ends
   in ``PART = Part("Squad", "/squad", routes=(Route("/squad", squad_list), ...))``. Paths are
   written in full. A new part is added once to ``PARTS`` in ``web/parts.py``.
   ``site(request).keeper`` is the database, ``site(request).today()`` the day. A GET never writes.
   A POST reads ``Form.of(request)``, calls one use case, and ends in ``see_other(path,
   changed="what changed, in one line", undo="/path/that/takes/it/back")``.
2. Context. ``web/<part>/contexts.py``: a frozen dataclass under ``@template("squad/list.html")``
   with exactly the names its template uses. ``render(request, SquadList(...), status=200)``.
3. Template. ``web/<part>/templates/list.html`` starts with ``{% extends "layout/page.html" %}`` and
   fills ``{% block title %}`` and ``{% block content %}``. Only ``frame`` is there beside the
   context. A template used by ``include`` begins with ``_`` and has no class of its own.
   Macros: ``{% from "layout/components/button.html" import button %}``; ``/patterns`` shows all.
4. Form. ``web/<part>/forms.py``: ``read_new_athlete(form: Form) -> NewAthlete`` reads each field
   (``form.text``, ``.whole``, ``.number``, ``.mass``, ``.day``, ``.clock``, ``.choice``, ``.flag``,
   ``.file``) and ends in ``form.done()``, which raises ``InvalidInput``. The route catches it and
   renders the page again with ``form.refused(error)`` and status 422: what was typed is kept.
   In the template ``{% call form("/squad/add", frame) %} ... {% endcall %}`` carries the token.
5. Style. ``web/static/css/pages/<page>.css`` is picked up by itself; colours, spaces and sizes
   only from ``tokens.css``. A new component goes to ``layout/components/``, ``css/components/`` and
   the ``/patterns`` page first. No inline style or script; SVG attributes are fine.
6. Script, if any. ``web/static/js/<behaviour>.js``, an ES module; the template fills
   ``{% block scripts %}`` with ``<script type="module" src="{{ static('js/x.js') }}"></script>``.
   The page works without it. A fetch that writes sends ``X-CSRF-Token`` (see ``js/send.js``).
7. Tests. ``tests/web/test_<part>.py`` asks the fixture ``browse`` (``browse.get``, ``browse.post``
   adds token and origin); ``tests/browser/test_<part>.py`` walks it (fixtures ``site`` and
   ``page``) and calls ``assert_accessible(page)`` and ``assert_no_sideways_scroll(page)``.

Errors: raise a ``SquadwrightError``; one handler makes the page (``web/errors.py``).
"""
