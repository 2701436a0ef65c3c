"""What a page says, as figures: the lists of Today, a table below its heading, a list of figures."""

import re


def words(html):
    """The words of a piece of a page."""
    bare = re.sub(r"<[^>]+>", " ", html).replace("&#39;", "'").replace("\N{NO-BREAK SPACE}", " ")
    return " ".join(bare.split())


def listed(staff, title):
    """How many Today says of one rule, and the text below its heading."""
    text = staff.open("/today").page
    part = re.search(
        rf">{re.escape(title)} <span class=\"of\">(more than )?(\d+)</span>(.*?)</section>", text, re.DOTALL
    )
    return (int(part[2]), words(part[3])) if part else (0, "")


def everything_due(staff):
    """Every rule that Today names, with its count."""
    page = staff.open("/today").page
    return {title: int(count) for title, count in re.findall(r'<h.[^>]*>([^<]+) <span class="of">(\d+)<', page)}


def table(staff, heading):
    """The rows of the first table after a heading, cell by cell."""
    after = staff.page.split(heading, 1)[1]
    body = after.split("<tbody", 1)[1].split("</tbody>", 1)[0]
    rows = re.findall(r"<tr\b.*?</tr>", body, re.DOTALL)
    return [[words(cell) for cell in re.findall(r"<t[hd]\b[^>]*>(.*?)</t[hd]>", row, re.DOTALL)] for row in rows]


def figures(staff):
    """Every name and its figure of the lists of figures."""
    found = re.findall(r"<dt>(.*?)</dt>\s*<dd>(.*?)</dd>", staff.page, re.DOTALL)
    return {words(name): words(figure) for name, figure in found}


def exposed_by_place(staff):
    """How many a pest's page lists at each place."""
    return dict(re.findall(r"<summary>([^<:]+): (\d+)</summary>", staff.page))


def codes_on(staff):
    return list(dict.fromkeys(re.findall(r"data-code>([0-9A-Z]{7})<", staff.page)))


def specimen_of(staff, code):
    return staff.open(f"/{code}").find(r'href="(/s/[0-9a-f]{32})"')
