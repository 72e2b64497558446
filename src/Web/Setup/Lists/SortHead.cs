using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace MitigationOffice.Web.Setup.Lists;

/// <summary>The head of a column that sorts: <c>&lt;sort-head by="day" words="Day" /&gt;</c>. A second press turns the order round; the rest of the address stays.</summary>
[HtmlTargetElement("sort-head", TagStructure = TagStructure.WithoutEndTag)]
public sealed class SortHeadTagHelper : TagHelper
{
    public string By { get; set; } = "";
    public string Words { get; set; } = "";
    public bool Number { get; set; }

    /// <summary>What the list is sorted by when the address says nothing.</summary>
    public string Usual { get; set; } = "";

    [HtmlAttributeNotBound]
    [ViewContext]
    public ViewContext ViewContext { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var query = ViewContext.HttpContext.Request.Query;
        var sort = query["sort"].ToString() is { Length: > 0 } asked ? asked : Usual;
        var (up, down) = (sort == By, sort == "-" + By);
        var address = QueryString.Create(query.Where(q => q.Key is not ("sort" or "handler")).Append(new("sort", up ? "-" + By : By)));
        output.TagName = "th";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("scope", "col");
        if (Number) output.Attributes.SetAttribute("class", "number");
        if (up || down) output.Attributes.SetAttribute("aria-sort", up ? "ascending" : "descending");
        var link = new TagBuilder("a");
        link.Attributes["href"] = address.ToString();
        link.InnerHtml.Append(Words + (up ? " ↑" : down ? " ↓" : ""));
        output.Content.AppendHtml(link);
    }
}
