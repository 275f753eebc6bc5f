using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Architecture;

/// <summary>The list of what Core must not use, checked against the assembly that was built, independently of the analyzer that reads the same list.</summary>
public sealed class BannedSymbolsTests
{
    [Fact]
    public void The_list_is_handed_to_the_compiler()
    {
        string project = File.ReadAllText(Path.Combine(Repository.Root, "src", "Leafstop.Core", "Leafstop.Core.csproj"));
        Assert.Contains("BannedApiAnalyzers", project, StringComparison.Ordinal);
        Assert.Contains("AdditionalFiles Include=\"BannedSymbols.txt\"", project, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_banned_symbol_exists_so_that_banning_it_means_something()
    {
        foreach (string id in Ids())
            Assert.True(Resolves(id), id);
    }

    [Fact]
    public void Core_as_built_uses_none_of_them()
    {
        string[] used = Used();
        Assert.Contains("System.Math.Log2", used);
        foreach (string id in Ids())
        {
            string name = id[2..];
            Assert.DoesNotContain(used, u => id[0] switch
            {
                // The compiler itself asks for the thread in every method with "yield".
                'T' => u.StartsWith(name + ".", StringComparison.Ordinal) && u != "System.Environment.get_CurrentManagedThreadId",
                'P' => u == Insert(name, "get_"),
                _ => name == "System.Random.#ctor" && u == "System.Random..ctor()",
            });
        }
    }

    private static IEnumerable<string> Ids() =>
        File.ReadLines(Path.Combine(Repository.Root, "src", "Leafstop.Core", "BannedSymbols.txt")).Where(l => l.Length > 0).Select(l => l.Split(';')[0]);

    private static string Insert(string property, string prefix)
    {
        int dot = property.LastIndexOf('.');
        return $"{property[..dot]}.{prefix}{property[(dot + 1)..]}";
    }

    private static bool Resolves(string id)
    {
        string name = id[2..];
        if (id[0] == 'T')
            return typeof(object).Assembly.GetType(name) is not null;
        int dot = name.LastIndexOf('.');
        Type? type = typeof(object).Assembly.GetType(name[..dot]);
        return id[0] == 'P' ? type?.GetProperty(name[(dot + 1)..]) is not null : type?.GetConstructor(Type.EmptyTypes) is not null;
    }

    // Types and members that the assembly refers to, as "Namespace.Type" and "Namespace.Type.Member"; constructors without arguments end in "()".
    private static string[] Used()
    {
        using FileStream stream = File.OpenRead(Path.Combine(AppContext.BaseDirectory, "Leafstop.Core.dll"));
        using PEReader file = new(stream);
        MetadataReader reader = file.GetMetadataReader();
        List<string> used = [];
        string NameOf(TypeReference type) => $"{reader.GetString(type.Namespace)}.{reader.GetString(type.Name)}";
        foreach (TypeReferenceHandle handle in reader.TypeReferences)
            used.Add(NameOf(reader.GetTypeReference(handle)));
        foreach (MemberReferenceHandle handle in reader.MemberReferences)
        {
            MemberReference member = reader.GetMemberReference(handle);
            if (member.Parent.Kind != HandleKind.TypeReference)
                continue;
            string name = $"{NameOf(reader.GetTypeReference((TypeReferenceHandle)member.Parent))}.{reader.GetString(member.Name)}";
            BlobReader signature = reader.GetBlobReader(member.Signature);
            bool isPlainConstructor = name.EndsWith("..ctor", StringComparison.Ordinal) && signature.ReadSignatureHeader().Kind == SignatureKind.Method
                && signature.ReadCompressedInteger() == 0;
            used.Add(isPlainConstructor ? name + "()" : name);
        }
        return [.. used];
    }
}
