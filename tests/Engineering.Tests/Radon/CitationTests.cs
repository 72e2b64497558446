using System.Reflection;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Radon;
using MitigationOffice.Engineering.Siting;
using MitigationOffice.Engineering.Sources;

namespace MitigationOffice.Engineering.Tests.Radon;

public class CitationTests
{
    [Fact]
    public void Every_source_names_a_text_of_its_own()
    {
        Type[] chapters = [typeof(RadonSources), typeof(TestWindow), typeof(PipeRules)];
        var citations = typeof(RadonSources).Assembly.GetExportedTypes()
            .Where(type => chapters.Any(chapter => chapter.Namespace == type.Namespace))
            .SelectMany(type => type.GetFields(BindingFlags.Public | BindingFlags.Static))
            .Where(field => field.FieldType == typeof(Citation))
            .Select(field => (field.Name, Citation: (Citation)field.GetValue(null)!))
            .ToList();
        Assert.True(citations.Count >= 30, $"only {citations.Count} sources were found");
        Assert.All(citations, found => Assert.True(found.Citation.Text.Length > 8, $"{found.Name} cites nothing"));
    }
}
