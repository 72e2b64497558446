using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>A part of a long sheet under its heading. Closed, it is folded away until somebody opens it, follows a link into it, or prints the sheet.</summary>
[HtmlTargetElement("fold")]
public sealed class FoldTagHelper : TagHelper
{
    public string Id { get; set; } = "";
    public string Words { get; set; } = "";

    /// <summary>Said softly behind the heading.</summary>
    public string? Beside { get; set; }
    public bool Closed { get; set; }

    [HtmlAttributeNotBound]
    [ViewContext]
    public ViewContext ViewContext { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var heading = new TagBuilder("h2");
        heading.InnerHtml.Append(Words);
        if (Beside is not null) heading.InnerHtml.Append(" ").AppendHtml(Soft(Beside));
        output.TagMode = TagMode.StartTagAndEndTag;

        // A refused form stands open, whichever part it is in.
        if (!Closed || !ViewContext.ViewData.ModelState.IsValid)
        {
            output.TagName = "section";
            output.Attributes.SetAttribute("id", Id);
            output.PreContent.AppendHtml(heading);
            return;
        }

        output.TagName = "details";
        output.Attributes.SetAttribute("class", "fold");
        var summary = new TagBuilder("summary");
        summary.InnerHtml.AppendHtml(heading);
        // The name is inside, so that a link to it opens what is folded.
        var inside = new TagBuilder("div");
        inside.Attributes["id"] = Id;
        output.PreContent.AppendHtml(summary).AppendHtml(inside.RenderStartTag());
        output.PostContent.AppendHtml(inside.RenderEndTag());
    }

    private static TagBuilder Soft(string words)
    {
        var span = new TagBuilder("span");
        span.AddCssClass("soft");
        span.InnerHtml.Append(words);
        return span;
    }
}
